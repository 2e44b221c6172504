package org.isopach.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.nerve.Arc;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.EventVerdict;
import org.isopach.analysis.nerve.NerveEvent;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.job.NerveResult;
import org.isopach.report.Cautions;
import org.isopach.report.table.NerveChange;
import org.isopach.report.table.NerveCourse;
import org.isopach.report.table.NerveFile;
import org.isopach.report.table.NerveKey;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Prints what was measured of the nerve: a few lines for each scan and role. */
final class NervePrinter {
  private static final String HEADING =
      "                 global | temporal  superior     nasal  inferior";

  private final PrintWriter out;

  NervePrinter(PrintWriter out) {
    this.out = out;
  }

  void print(NerveResult result) {
    result.tables().forEach(this::print);
    new ResultPrinter(out).files(result.job());
    out.println();
    out.println(Cautions.LINE);
  }

  private void print(NerveTable table) {
    out.println();
    out.println(
        ResultPrinter.eye(table.scan(), table.laterality())
            + ", "
            + ResultPrinter.time(table.scan())
            + ": "
            + what(table));
    out.println("  scan " + PlainText.of(table.scan().sopUid()));
    if (table.diameterMm().isPresent()) {
      circle(table);
    } else {
      ganglion(table);
    }
    value(table, NerveMeasure.FOVEA_DISC_ANGLE)
        .ifPresent(angle -> out.println(fixed("  line from fovea to disc %+.1f degrees", angle)));
  }

  private static String what(NerveTable table) {
    String angles =
        switch (table.zero().kind()) {
          case HORIZONTAL -> "";
          case FOVEA_DISC_LINE -> ", angles from the line between disc and fovea";
        };
    return (table.diameterMm().isPresent()
            ? String.format(
                Locale.ROOT,
                "%s, circle of %.2f mm, um",
                table.role(),
                table.diameterMm().getAsDouble())
            : table.role() + ", ganglion cells, um")
        + angles;
  }

  private void circle(NerveTable table) {
    out.println(HEADING);
    out.println(line("RNFL", table, NerveMeasure.FIBRES, NervePrinter::number));
    if (table.values().stream().anyMatch(value -> value.percentile().isPresent())) {
      out.println(line("percentile", table, NerveMeasure.FIBRES, NervePrinter::percentile));
      out.println(
          "  percentiles are indicative: what they leave out stands in nerve.csv, column place");
    }
    if (table.values().stream().anyMatch(value -> value.measure() == NerveMeasure.RIM_WIDTH)) {
      out.println(line("rim width", table, NerveMeasure.RIM_WIDTH, NervePrinter::number));
    }
    value(table, NerveMeasure.OPENING_AREA)
        .ifPresent(
            area ->
                out.println(
                    String.format(
                        Locale.ROOT,
                        "  opening %.2f mm2, tilt %.1f degrees",
                        area,
                        value(table, NerveMeasure.DISC_TILT).orElseThrow())));
    table
        .value(NerveMeasure.FIBRES, "", "global")
        .flatMap(NerveValue::place)
        .map(NormalPlace::words)
        .ifPresent(words -> out.println("  mean of the circle: " + PlainText.of(words)));
  }

  private void ganglion(NerveTable table) {
    out.println("                annulus   minimum   superior less inferior half");
    table.values().stream()
        .filter(value -> value.measure() == NerveMeasure.GANGLION && value.scheme().isEmpty())
        .forEach(
            value -> {
              Function<NerveMeasure, String> cell =
                  measure ->
                      table.values().stream()
                          .filter(v -> v.measure() == measure && v.layer().equals(value.layer()))
                          .findFirst()
                          .map(NervePrinter::number)
                          .orElse("n/m");
              out.println(
                  String.format(
                      Locale.ROOT,
                      "  %-12s%9s%10s%25s",
                      Layer.ofName(value.layer()).map(LayerCatalogue::shortName).orElseThrow(),
                      number(value),
                      cell.apply(NerveMeasure.GANGLION_MINIMUM),
                      cell.apply(NerveMeasure.GANGLION_ASYMMETRY)));
            });
  }

  /** Prints the change of the circle's mean, and what else is beyond noise. */
  void change(List<NerveChange> changes) {
    String before = "";
    for (NerveChange change : changes) {
      String pair = change.followUp().sopUid() + change.role();
      if (!pair.equals(before)) {
        out.println();
        out.println(
            "Patient "
                + PlainText.of(change.eye().patientId())
                + ", "
                + change.eye().laterality().word()
                + " eye, "
                + change.role()
                + ": change of the nerve in um from "
                + ResultPrinter.time(change.baseline())
                + " to "
                + ResultPrinter.time(change.followUp()));
        before = pair;
      }
      if (worthALine(change)) {
        out.println("  " + name(change.key()) + ": " + PlainText.of(change.words()));
      }
    }
  }

  private static boolean worthALine(NerveChange change) {
    boolean whole = change.key().scheme().isEmpty() && change.event().isPresent();
    boolean beyond =
        change
            .event()
            .map(NerveEvent::verdict)
            .filter(v -> v == EventVerdict.THINNER || v == EventVerdict.THICKER)
            .isPresent();
    return whole || beyond || change.key().measure() == NerveMeasure.FIBRE_DEFECT;
  }

  /** Prints how the means of whole circles, rims and annuli run. */
  void courses(List<NerveCourse> courses) {
    String before = "";
    for (NerveCourse course : courses) {
      if (!course.key().scheme().isEmpty() || course.trend().isEmpty()) {
        continue;
      }
      String eye =
          "Patient "
              + PlainText.of(course.eye().patientId())
              + ", "
              + course.eye().laterality().word()
              + " eye, "
              + course.role();
      if (!eye.equals(before)) {
        out.println();
        out.println(eye + ": course of the nerve");
        before = eye;
      }
      out.println("  " + name(course.key()) + ": " + PlainText.of(course.words()));
    }
  }

  private static String name(NerveKey key) {
    String layer = Layer.ofName(key.layer()).map(LayerCatalogue::shortName).orElse("");
    boolean fibres =
        key.measure() == NerveMeasure.FIBRES || key.measure() == NerveMeasure.FIBRE_DEFECT;
    return Stream.of(key.measure().code(), fibres ? "" : layer, key.scheme(), key.sector())
        .filter(text -> !text.isEmpty())
        .collect(Collectors.joining(" "));
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
    StringBuilder line = new StringBuilder(String.format("  %-12s%9s |", name, cells.get(0)));
    cells.subList(1, cells.size()).forEach(text -> line.append(String.format("%9s ", text)));
    return line.toString().stripTrailing();
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
    return value.percentile().map(one -> fixed("%.0f", one.percentile())).orElse("-");
  }

  private static String fixed(String format, double value) {
    return String.format(Locale.ROOT, format, value);
  }

  private static Optional<Double> value(NerveTable table, NerveMeasure measure) {
    return table.values().stream()
        .filter(value -> value.measure() == measure && value.value().isPresent())
        .map(value -> value.value().getAsDouble())
        .findFirst();
  }

  static void json(PrintWriter out, NerveResult result) throws IOException {
    ObjectNode root = ResultJson.JSON.createObjectNode();
    root.put("out", result.job().folder().root().toString());
    root.set("nerve", ResultJson.rows(NerveFile.columns(), NerveFile.rows(result.tables())));
    root.set("run", ResultJson.JSON.valueToTree(result.job().run()));
    ResultJson.print(out, root);
  }
}
