package org.isopach.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.nerve.Arc;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/**
 * Prints what was measured in each scan of the nerve, eye by eye. What holds for all of them is
 * said once, below.
 */
final class NerveScanPrinter {
  private static final String QUADRANTS =
      "                     global |  temporal  superior     nasal  inferior";
  private static final String ANNULUS =
      "                    annulus   minimum   superior less inferior half";

  private final PrintWriter out;

  NerveScanPrinter(PrintWriter out) {
    this.out = out;
  }

  /** Prints tables in their order, then what must be known to read them. */
  void print(List<NerveTable> tables) {
    String eye = "";
    String heading = "";
    for (NerveTable table : tables) {
      String whose = ResultPrinter.eye(table.scan(), table.laterality());
      if (!whose.equals(eye)) {
        out.println();
        out.println(whose + ": thickness in um");
        eye = whose;
        heading = "";
      }
      String columns = table.diameterMm().isPresent() ? QUADRANTS : ANNULUS;
      if (!columns.equals(heading)) {
        out.println(columns);
        heading = columns;
      }
      print(table);
    }
    new NerveFootPrinter(out).print(tables);
  }

  private void print(NerveTable table) {
    out.println("  " + ResultPrinter.time(table.scan()) + "  " + what(table));
    out.println("    scan " + PlainText.of(table.scan().sopUid()));
    if (table.diameterMm().isPresent()) {
      circle(table);
    } else {
      ganglion(table);
    }
    value(table, NerveMeasure.FOVEA_DISC_ANGLE)
        .ifPresent(angle -> out.println(fixed("    line from fovea to disc %+.1f degrees", angle)));
    String flags = flags(table);
    if (!flags.isEmpty()) {
      out.println("    look: " + flags);
    }
  }

  private static String what(NerveTable table) {
    String angles =
        switch (table.zero().kind()) {
          case HORIZONTAL -> "";
          case FOVEA_DISC_LINE -> ", angles from the line between disc and fovea";
        };
    String scan =
        table.diameterMm().isPresent()
            ? String.format(
                Locale.ROOT,
                "%s of %.2f mm",
                table.role().equals("circle") ? "circle scan" : table.role() + ", circle",
                table.diameterMm().getAsDouble())
            : table.role() + ", ganglion cells";
    return scan + angles + (unchecked(table) ? "; centring not checked" : "");
  }

  /** Returns whether nothing told if the circle of a table is centred on the disc. */
  static boolean unchecked(NerveTable table) {
    return table.values().stream()
        .anyMatch(value -> value.flags().contains(FindingKind.CIRCLE_NOT_CHECKED));
  }

  private void circle(NerveTable table) {
    out.println(line("RNFL", table, NerveMeasure.FIBRES, NerveScanPrinter::number));
    if (table.values().stream().anyMatch(value -> value.percentile().isPresent())) {
      out.println(line("percentile", table, NerveMeasure.FIBRES, NerveScanPrinter::percentile));
      out.println(line("95 % interval", table, NerveMeasure.FIBRES, NerveScanPrinter::interval));
    }
    if (table.values().stream().anyMatch(value -> value.measure() == NerveMeasure.RIM_WIDTH)) {
      out.println(line("rim width", table, NerveMeasure.RIM_WIDTH, NerveScanPrinter::number));
    }
    value(table, NerveMeasure.OPENING_AREA)
        .ifPresent(
            area ->
                out.println(
                    String.format(
                        Locale.ROOT,
                        "    opening %.2f mm2, tilt %.1f degrees",
                        area,
                        value(table, NerveMeasure.DISC_TILT).orElseThrow())));
    table
        .value(NerveMeasure.FIBRES, "", "global")
        .flatMap(NerveScanPrinter::without)
        .ifPresent(words -> out.println("    " + PlainText.of(words)));
  }

  /** Why the whole circle has no number, or none among a group's. */
  private static Optional<String> without(NerveValue whole) {
    return whole.value().isEmpty()
        ? Optional.of("global not measurable, " + whole.reason())
        : whole.place().filter(NormalPlace.NotPlaced.class::isInstance).map(NormalPlace::words);
  }

  private void ganglion(NerveTable table) {
    table.values().stream()
        .filter(value -> value.measure() == NerveMeasure.GANGLION && value.scheme().isEmpty())
        .forEach(
            value -> {
              Function<NerveMeasure, String> cell =
                  measure ->
                      table.values().stream()
                          .filter(v -> v.measure() == measure && v.layer().equals(value.layer()))
                          .findFirst()
                          .map(NerveScanPrinter::number)
                          .orElse("n/m");
              out.println(
                  String.format(
                      Locale.ROOT,
                      "    %-14s%9s%10s%25s",
                      Layer.ofName(value.layer()).map(LayerCatalogue::shortName).orElseThrow(),
                      number(value),
                      cell.apply(NerveMeasure.GANGLION_MINIMUM),
                      cell.apply(NerveMeasure.GANGLION_ASYMMETRY)));
            });
  }

  /** Names what makes numbers of a scan doubtful, and which quadrants where it is not all. */
  private static String flags(NerveTable table) {
    return table.values().stream()
        .flatMap(value -> value.flags().stream())
        .distinct()
        .filter(kind -> kind != FindingKind.CIRCLE_NOT_CHECKED)
        .map(kind -> kind.name().toLowerCase(Locale.ROOT).replace('_', ' ') + where(table, kind))
        .collect(Collectors.joining("; "));
  }

  private static String where(NerveTable table, FindingKind kind) {
    List<NerveValue> quadrants =
        table.values().stream()
            .filter(value -> value.measure() == NerveMeasure.FIBRES)
            .filter(value -> value.scheme().equals(ArcSchemes.QUADRANTS.name()))
            .toList();
    List<String> touched =
        quadrants.stream()
            .filter(value -> value.flags().contains(kind))
            .map(NerveValue::sector)
            .toList();
    return touched.isEmpty() || touched.size() == quadrants.size()
        ? ""
        : " (" + String.join(", ", touched) + ")";
  }

  private static String line(
      String name, NerveTable table, NerveMeasure measure, Function<NerveValue, String> cell) {
    String quadrants = ArcSchemes.QUADRANTS.name();
    List<String> cells =
        Stream.concat(
                Stream.of(table.value(measure, "", "global")),
                ArcSchemes.QUADRANTS.arcs().stream()
                    .map(Arc::name)
                    .map(arc -> table.value(measure, quadrants, arc)))
            .map(value -> value.map(cell).orElse("n/m"))
            .toList();
    StringBuilder line = new StringBuilder(String.format("    %-14s%9s |", name, cells.get(0)));
    cells.subList(1, cells.size()).forEach(text -> line.append(String.format("%10s", text)));
    return line.toString();
  }

  private static String number(NerveValue value) {
    boolean signed =
        value.measure() == NerveMeasure.GANGLION_ASYMMETRY
            || value.measure() == NerveMeasure.GANGLION_ASYMMETRY_MIRRORED;
    return value.value().isPresent()
        ? fixed(signed ? "%+.1f" : "%.1f", value.value().getAsDouble())
        : "n/m";
  }

  private static String percentile(NerveValue value) {
    return value.percentile().map(one -> percent(one.percentile())).orElse("-");
  }

  private static String interval(NerveValue value) {
    return value
        .percentile()
        .map(one -> percent(one.interval().lower()) + "-" + percent(one.interval().upper()))
        .orElse("-");
  }

  /** Near the ends with a decimal, so that 0.3 and 99.7 do not become 0 and 100. */
  private static String percent(double percentile) {
    return percentile < 0.05
        ? "<0.1"
        : percentile > 99.95
            ? ">99.9"
            : fixed(percentile < 10 || percentile > 90 ? "%.1f" : "%.0f", percentile);
  }

  /** Never writes a zero with a minus sign. */
  private static String fixed(String format, double value) {
    return String.format(Locale.ROOT, format, Math.abs(value) < 0.05 ? 0.0 : value);
  }

  private static Optional<Double> value(NerveTable table, NerveMeasure measure) {
    return table.values().stream()
        .filter(value -> value.measure() == measure && value.value().isPresent())
        .map(value -> value.value().getAsDouble())
        .findFirst();
  }
}
