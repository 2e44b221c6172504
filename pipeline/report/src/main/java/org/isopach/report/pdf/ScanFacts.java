package org.isopach.report.pdf;

import java.io.IOException;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.quality.FrameState;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.OctScan;

/** What was scanned and how good the scan is. */
final class ScanFacts {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);
  private static final double ROW = 14;
  private static final double LABEL = 86;

  private ScanFacts() {}

  /** A label and its text. */
  private record Fact(String label, String text) {}

  static void set(PdfFlow flow, ScanReport report) throws IOException {
    List<Fact> left = scan(report);
    List<Fact> right = quality(report.quality());
    double top = flow.y();
    double half = PdfFlow.WIDTH / 2;
    column(flow.canvas(), left, PdfFlow.LEFT, half - 8, top);
    column(flow.canvas(), right, PdfFlow.LEFT + half + 8, half - 8, top);
    flow.skip(Math.max(left.size(), right.size()) * ROW);
    findings(flow, report.findings());
  }

  static String patient(OctScan scan) {
    return scan.identity().patientId().isEmpty() ? "id not stated" : scan.identity().patientId();
  }

  static String acquired(OctScan scan) {
    return scan.identity().acquired().map(TIME::format).orElse("date not stated");
  }

  private static void column(PdfCanvas canvas, List<Fact> facts, double x, double width, double top)
      throws IOException {
    double y = top;
    for (Fact fact : facts) {
      canvas.text("P", Style.LABEL, x, y, fact.label());
      List<String> lines = canvas.wrapped(Style.TEXT, fact.text(), width - LABEL);
      String line = lines.size() == 1 ? lines.get(0) : lines.get(0) + " \u2026";
      canvas.text("P", Style.TEXT, x + LABEL, y, line);
      y += ROW;
    }
  }

  private static List<Fact> scan(ScanReport report) {
    OctScan scan = report.scan();
    List<Fact> facts = new ArrayList<>();
    facts.add(new Fact("patient", patient(scan)));
    facts.add(new Fact("eye", scan.laterality().orElseThrow().word()));
    facts.add(new Fact("acquired", acquired(scan)));
    facts.add(
        new Fact(
            "instrument",
            scan.device()
                .map(device -> (device.manufacturer() + " " + device.model()).trim())
                .orElse("not stated")));
    facts.add(new Fact("scan", figure(scan)));
    facts.add(new Fact("area", area(scan, report.lateralScale())));
    facts.add(new Fact("centre of the grid", centre(report)));
    facts.add(new Fact("lengths", lengths(report.lateralScale())));
    return facts;
  }

  private static String figure(OctScan scan) {
    return scan.path().map(path -> path.pattern().word() + ", ").orElse("")
        + scan.size().frames()
        + " \u00D7 "
        + scan.size().ascans()
        + " A-scans, "
        + scan.size().depths()
        + " depths";
  }

  /** Returns the extent in the mm that maps are made in. */
  private static String area(OctScan scan, double lateralScale) {
    return scan.path()
        .map(
            path -> {
              FundusPoint extent = path.extent();
              return SectorColumns.fixed(lateralScale * extent.xMm(), 2)
                  + " mm across, "
                  + SectorColumns.fixed(lateralScale * extent.yMm(), 2)
                  + " mm down";
            })
        .orElse("not stated");
  }

  private static String centre(ScanReport report) {
    return switch (report.maps().get(0).table().centre().source()) {
      case FOVEAL_PIT -> "foveal pit, as found";
      case DISC_OPENING -> "centre of the disc's opening";
      case SCAN_MIDDLE -> "middle of the scan: no pit was found";
      case STATED -> "as the object states";
    };
  }

  private static String lengths(double scale) {
    return scale == 1
        ? "as the object states them"
        : "corrected for axial length, \u00D7 " + SectorColumns.fixed(scale, 4);
  }

  private static List<Fact> quality(ScanQuality quality) {
    return List.of(
        new Fact(
            "frames measured",
            quality.count(FrameState.MEASURED) + " of " + quality.frames().size()),
        new Fact("signal to noise", number(quality.signalToNoiseDb(), 1, 1, " dB (median frame)")),
        new Fact("mean confidence", number(quality.meanConfidence(), 1, 2, " of 1")),
        new Fact("saturated", number(quality.saturatedFraction(), 100, 2, " % of pixels")),
        new Fact("leaves the frame", number(quality.cutOff(), 100, 1, " % of A-scans")),
        new Fact("folded over", number(quality.mirrored(), 100, 1, " % of A-scans")),
        new Fact("largest step", number(quality.largestMotionStepUm(), 1, 1, " µm between frames")),
        new Fact("pit off the middle", number(quality.decentrationMm(), 1, 2, " mm")));
  }

  private static String number(OptionalDouble value, double factor, int decimals, String unit) {
    return value.isPresent()
        ? SectorColumns.fixed(factor * value.getAsDouble(), decimals) + unit
        : "not known";
  }

  private static void findings(PdfFlow flow, List<Finding> findings) throws IOException {
    flow.skip(6);
    if (findings.isEmpty()) {
      flow.paragraph(Style.STRONG, "No finding about this scan was recorded.");
      return;
    }
    flow.paragraph(Style.STRONG, "Noted about this scan");
    for (Finding finding : findings) {
      flow.paragraph(
          Style.LABEL,
          PdfFlow.LEFT + 8,
          PdfFlow.WIDTH - 8,
          "\u2013 " + finding.detail() + "; " + finding.kind().advice());
    }
  }
}
