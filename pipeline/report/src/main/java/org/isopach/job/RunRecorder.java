package org.isopach.job;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.report.Cautions;
import org.isopach.report.run.RunRecord;
import org.isopach.report.run.RunRecordFile;
import org.isopach.report.table.ChangeFile;
import org.isopach.report.table.FluidFile;
import org.isopach.report.table.NerveFile;
import org.isopach.report.table.SectorFile;

/** Closes a run: writes what is made of all its numbers, and its record; hands over its result. */
final class RunRecorder {
  private RunRecorder() {}

  /**
   * Closes a run.
   *
   * @param command the name under which it was asked for
   * @param further parameters beyond those of the request
   * @throws IOException when a file cannot be written
   */
  static JobResult finish(String command, Map<String, Object> further, OpenRun open, long nanos)
      throws IOException {
    JobRequest request = open.request();
    RunLedger ledger = open.ledger();
    RunFolder folder = open.folder();
    Map<String, Object> parameters = parameters(request);
    parameters.putAll(further);
    if (request.outputs().contains(Output.FHIR)) {
      FilePiece.write(
          FileKind.FHIR,
          open.listener(),
          () -> new FhirFiles(folder, open.software()).write(ledger));
    }
    RunRecord run =
        new RunRecord(
            open.software(),
            Cautions.sentences(),
            command,
            parameters,
            open.contents().filesSeen(),
            ledger.inputs(),
            ledger.findings().stream().map(RunRecorder::entry).toList(),
            ledger.files().stream()
                .map(file -> new RunRecord.OutputEntry(folder.name(file.path()), file.sha256()))
                .toList(),
            ledger.status().code(),
            new RunRecord.Timings(RunLedger.millis(nanos), ledger.times()));
    RunRecordFile.write(folder.run(), run);
    return new JobResult(
        folder,
        SectorFile.inOrder(ledger.tables()),
        FluidFile.inOrder(ledger.regions()),
        ChangeFile.inOrder(ledger.changes()),
        NerveFile.inOrder(ledger.nerve()),
        ledger.nerveChanges(),
        ledger.findings(),
        ledger.files(),
        ledger.status(),
        run);
  }

  private static Map<String, Object> parameters(JobRequest request) {
    Map<String, Object> values = new LinkedHashMap<>();
    values.put("inputs", request.inputs().stream().map(Path::toString).toList());
    values.put("layers", request.layers().stream().map(Layer::name).toList());
    values.put(
        "pictured",
        request.layers().stream().filter(request.pictured()::contains).map(Layer::name).toList());
    values.put("grid", request.grid().name());
    values.put("axial_length_mm", request.axialLengths().parameters());
    values.put("baseline", request.baseline().map(BaselineChoice::word).orElse(""));
    request
        .baseline()
        .map(BaselineChoice::noise)
        .ifPresent(
            noise -> {
              values.put("repeats", noise.repeats().map(Path::toString).orElse(""));
              values.put("published_noise", noise.population());
            });
    values.put("minimum_coverage", LayerMapper.MINIMUM_COVERAGE);
    values.put("minimum_confidence", InterpolationRules.DEFAULT.minimumConfidence());
    values.put("maximum_gap_mm", InterpolationRules.DEFAULT.maximumGapMm());
    values.put("lattice_step_mm", LayerMapper.STEP_MM);
    values.put("outputs", request.outputs().stream().map(Output::toString).toList());
    values.put("regions", request.frames().regions());
    values.put(
        "overlays",
        request.frames().overlays() == FrameOutputs.ALL_FRAMES
            ? "all"
            : request.frames().overlays());
    values.put("threads", request.threads());
    return values;
  }

  private static RunRecord.FindingEntry entry(Finding finding) {
    return new RunRecord.FindingEntry(
        finding.kind().name(),
        finding.kind().gravity().name(),
        finding.subject(),
        finding.detail(),
        finding.kind().advice());
  }
}
