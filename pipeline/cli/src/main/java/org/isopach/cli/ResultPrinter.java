package org.isopach.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.job.JobResult;
import org.isopach.job.WrittenFile;
import org.isopach.report.Cautions;
import org.isopach.report.table.AlignedChange;

/** Prints what a run brought as plain text, one line for a layer, a column for a sector. */
final class ResultPrinter {
  static final String HEADING =
      "                 centre |  inner: sup     nas     inf    temp |"
          + "  outer: sup     nas     inf    temp |   total";
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

  private final PrintWriter out;

  ResultPrinter(PrintWriter out) {
    this.out = out;
  }

  void print(JobResult result) {
    thickness(result.tables());
    new RegionPrinter(out).print(result.regions());
    change(result.changes());
    new NervePrinter(out).change(result.nerveChanges());
    files(result);
    out.println();
    out.println(Cautions.LINE);
  }

  private void thickness(List<SectorTable> tables) {
    String before = "";
    for (SectorTable table : inOrderOfLayers(tables, t -> t.scan().sopUid(), SectorTable::layer)) {
      if (!before.equals(table.scan().sopUid())) {
        out.println();
        out.println(
            eye(table.scan(), table.laterality())
                + ", "
                + time(table.scan())
                + ": mean thickness in um, "
                + table.grid().name());
        out.println("  scan " + PlainText.of(table.scan().sopUid()));
        out.println(HEADING + "   volume mm3");
        before = table.scan().sopUid();
      }
      out.println(
          line(
                  LayerCatalogue.shortName(table.layer()),
                  table.sectors().stream().map(ResultPrinter::mean).toList(),
                  false)
              + volume(table));
    }
  }

  /** Keeps the order of the scans; within a scan the whole retina comes first, then the layers. */
  private static <T> List<T> inOrderOfLayers(
      List<T> tables, Function<T, String> scan, Function<T, Layer> layer) {
    Map<String, List<T>> scans = new LinkedHashMap<>();
    for (T table : tables) {
      scans.computeIfAbsent(scan.apply(table), uid -> new ArrayList<>()).add(table);
    }
    return scans.values().stream()
        .flatMap(of -> of.stream().sorted(Comparator.comparingInt(t -> place(layer.apply(t)))))
        .toList();
  }

  private static int place(Layer layer) {
    int place = LayerCatalogue.ALL.indexOf(layer);
    return place < 0 ? Integer.MAX_VALUE : place;
  }

  private void change(List<AlignedChange> changes) {
    Map<String, List<AlignedChange>> scans = new LinkedHashMap<>();
    for (AlignedChange change :
        inOrderOfLayers(changes, c -> c.table().followUp().sopUid(), c -> c.table().layer())) {
      scans
          .computeIfAbsent(change.table().followUp().sopUid(), uid -> new ArrayList<>())
          .add(change);
    }
    for (List<AlignedChange> layers : scans.values()) {
      out.println();
      out.println(heading(layers.get(0).table()));
      out.println(HEADING);
      for (AlignedChange change : layers) {
        out.println(
            line(
                LayerCatalogue.shortName(change.table().layer()),
                change.table().sectors().stream().map(ResultPrinter::change).toList(),
                true));
      }
      new VerdictPrinter(out).print(layers);
    }
  }

  private static String heading(ChangeTable table) {
    return eye(table.followUp(), table.laterality())
        + ": change in um from "
        + time(table.baseline())
        + " to "
        + time(table.followUp())
        + (table.days().isPresent() ? " (" + table.days().getAsLong() + " days)" : "");
  }

  /** Prints where the files are. */
  void files(JobResult result) {
    out.println();
    for (WrittenFile file : result.files()) {
      if (file.path().getParent().equals(result.folder().root())) {
        out.println("table     " + file.path());
      }
    }
    count(result, "maps", "pictures of maps");
    count(result, "change", "pictures of changes");
    count(result, "series", "charts of series");
    count(result, "asymmetry", "pictures of both eyes");
    count(result, "objects", "DICOM objects");
    count(result, "reports", "reports as PDF");
    count(result, "boundaries", "boundary tables");
    count(result, "registration", "files of how visits were laid on one another");
    count(result, "regions", "label images");
    count(result, "overlays", "frames drawn");
    count(result, "repeatability", "plots of repeats");
    count(result, "profile", "files of nerve fibre profiles: tables and plots");
    count(result, "profile-change", "tables of the profile's change, angle by angle");
    count(result, "profile-trend", "tables of the profile's slopes, angle by angle");
    out.println("record    " + result.folder().run());
  }

  private void count(JobResult result, String folder, String what) {
    Path place = result.folder().root().resolve(folder);
    long found = result.files().stream().filter(file -> file.path().startsWith(place)).count();
    if (found > 0) {
      out.println("folder    " + place + " (" + found + " " + what + ")");
    }
  }

  static String line(String name, List<OptionalDouble> values, boolean signed) {
    StringBuilder line = new StringBuilder(String.format("  %-14s", name));
    for (int i = 0; i < values.size(); i++) {
      boolean starts = i == 1 || i == 5 || i == values.size() - 1;
      line.append(starts ? " |" : "");
      line.append(cell(values.get(i), signed, i == 1 || i == 5 ? 12 : 8));
    }
    return line.toString();
  }

  private static String cell(OptionalDouble value, boolean signed, int width) {
    String text =
        value.isEmpty()
            ? "n/m"
            : String.format(Locale.ROOT, signed ? "%+.1f" : "%.1f", value.getAsDouble());
    return " ".repeat(Math.max(1, width - text.length())) + text;
  }

  private static OptionalDouble mean(SectorResult result) {
    return result instanceof Measured measured
        ? OptionalDouble.of(measured.meanUm())
        : OptionalDouble.empty();
  }

  private static OptionalDouble change(SectorChange change) {
    return change instanceof SectorChange.MeasuredChange measured
        ? OptionalDouble.of(measured.changeUm())
        : OptionalDouble.empty();
  }

  private static String volume(SectorTable table) {
    return table
        .sector(SectorGrid.TOTAL)
        .filter(Measured.class::isInstance)
        .map(total -> String.format(Locale.ROOT, "%13.3f", ((Measured) total).volumeMm3()))
        .orElse("          n/m");
  }

  static String eye(ScanIdentity scan, Laterality laterality) {
    String patient = scan.patientId().isEmpty() ? "(no id)" : scan.patientId();
    return "Patient " + PlainText.of(patient) + ", " + laterality.word() + " eye";
  }

  static String time(ScanIdentity scan) {
    return scan.acquired().map(TIME::format).orElse("date not stated");
  }
}
