package org.isopach.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.nerve.EventVerdict;
import org.isopach.analysis.nerve.NerveEvent;
import org.isopach.job.NerveResult;
import org.isopach.report.Cautions;
import org.isopach.report.table.NerveChange;
import org.isopach.report.table.NerveCourse;
import org.isopach.report.table.NerveFile;
import org.isopach.report.table.NerveKey;
import org.isopach.report.table.NerveMeasure;

/** Prints what was measured of the nerve, how it changed and how it runs. */
final class NervePrinter {
  private final PrintWriter out;

  NervePrinter(PrintWriter out) {
    this.out = out;
  }

  void print(NerveResult result) {
    new NerveScanPrinter(out).print(result.tables());
    new ResultPrinter(out).files(result.job());
    out.println();
    out.println(Cautions.LINE);
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

  static void json(PrintWriter out, NerveResult result) throws IOException {
    ObjectNode root = ResultJson.JSON.createObjectNode();
    root.put("out", result.job().folder().root().toString());
    root.set("nerve", ResultJson.rows(NerveFile.columns(), NerveFile.rows(result.tables())));
    root.set("run", ResultJson.JSON.valueToTree(result.job().run()));
    ResultJson.print(out, root);
  }
}
