package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.report.Software;
import org.isopach.report.file.CompleteFile;
import org.isopach.report.pdf.ScanReport;

/** Writes the report of a scan as PDF, and wrapped as an object when objects are asked for. */
final class ReportFiles {
  private final RunFolder folder;
  private final JobRequest request;
  private final Software software;
  private final ObjectFiles objects;

  ReportFiles(RunFolder folder, JobRequest request, Software software, ObjectFiles objects) {
    this.folder = folder;
    this.request = request;
    this.software = software;
    this.objects = objects;
  }

  /** Returns the writing of a scan's report; none for a scan without a map to show. */
  List<FilePiece> of(MeasuredScan scan, List<PaintedLayer> pictured) {
    if (pictured.isEmpty() || scan.scan().laterality().isEmpty()) {
      return List.of();
    }
    SetReport report = new SetReport(scan, () -> report(scan, pictured));
    List<FilePiece> work = new ArrayList<>();
    work.add(new FilePiece(FileKind.REPORT, () -> write(report)));
    if (request.outputs().contains(Output.OBJECTS)) {
      objects.wrapped(report).ifPresent(work::add);
    }
    return work;
  }

  private FileOutcome write(SetReport report) throws IOException {
    byte[] pdf = report.pdf();
    Path target = folder.report(report.scan().scan().identity().sopUid());
    return FileOutcome.written(target, CompleteFile.write(target, out -> out.write(pdf)));
  }

  private ScanReport report(MeasuredScan scan, List<PaintedLayer> pictured) {
    return new ScanReport(
        scan.scan(),
        pictured.stream()
            .map(one -> new ScanReport.Mapped(one.layer().map(), one.layer().table(), one.sheet()))
            .toList(),
        scan.layers().stream().map(MappedLayer::table).toList(),
        scan.regions(),
        scan.quality(),
        scan.findings(),
        scan.place().orElseThrow().lateralScale(),
        method(scan, pictured.get(0).layer().table()),
        software.title());
  }

  private static List<String> method(MeasuredScan scan, SectorTable table) {
    return List.of(
        String.format(
            Locale.ROOT,
            "Thickness is measured along the A-scan between the two boundaries named, in \u00B5m; one"
                + " pixel of depth is %.3f \u00B5m. What each boundary is: docs/measurements.md of the"
                + " program.",
            scan.scan().axial().toMicrometres(1)),
        String.format(
            Locale.ROOT,
            "A boundary counts where its confidence is %s or more. Maps have cells of %s mm and are"
                + " drawn across gaps of up to %s mm.",
            InterpolationRules.DEFAULT.minimumConfidence(),
            LayerMapper.STEP_MM,
            InterpolationRules.DEFAULT.maximumGapMm()),
        String.format(
            Locale.ROOT,
            "A sector's mean weighs each cell with its area in the sector. With less than %.0f %%"
                + " of a sector covered there is no number. The total needs every sector.",
            100 * table.minimumCoverage()),
        String.format(
            Locale.ROOT,
            "Grid %s, centred at x %.3f mm, y %.3f mm of the scan's coordinates%s.",
            table.grid().name(),
            table.centre().point().xMm(),
            table.centre().point().yMm(),
            scan.place().orElseThrow().lateralScale() == 1
                ? ""
                : ", all lengths on the fundus corrected for axial length"));
  }
}
