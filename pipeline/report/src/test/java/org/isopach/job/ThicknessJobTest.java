package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Software;
import org.isopach.report.run.RunRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ThicknessJobTest {
  @TempDir Path folder;

  @Test
  void aScanThatFailsIsNamedAndTheOthersAreMeasured() throws Exception {
    OctScan broken =
        SampleScans.withFrames(
            SampleScans.right("broken", 1),
            (frame, into) -> {
              throw new IllegalStateException("the disk went away");
            });

    JobResult result = run(List.of(SampleScans.right("good", 0), broken));

    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.status());
    assertEquals(List.of("good"), locations(result));
    Finding finding = only(result, FindingKind.FAILED);
    assertEquals("broken", finding.subject());
    assertTrue(finding.detail().contains("the disk went away"), finding.detail());
    assertEquals(
        List.of("measured", "failed"),
        result.run().inputs().stream().map(RunRecord.Input::outcome).toList());
  }

  @Test
  void aSingleLineGivesBoundariesAndNoGrid() throws Exception {
    OctScan line = SampleScans.scan("line", 0, ScanPlan.line(256, 400, 3.87, 6.4, 0));

    JobResult result = run(List.of(line));

    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.status());
    assertEquals("line", only(result, FindingKind.SINGLE_LINE).subject());
    assertEquals(List.of(), result.tables());
    Path boundaries = result.folder().boundaries(line.identity().sopUid());
    assertEquals(1 + 12 * 256, Files.readAllLines(boundaries).size());
  }

  @Test
  void threeFramesOverTheMaculaGiveBoundariesAndNoSector() throws Exception {
    OctScan three =
        SampleScans.scan("three", 0, ScanPlan.raster(new ScanSize(3, 256, 400), 3.87, 6.4, 6.4, 0));

    JobResult result = run(List.of(three, SampleScans.right("good", 1)));

    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.status());
    List<Finding> apart =
        result.findings().stream()
            .filter(finding -> finding.kind() == FindingKind.FRAMES_TOO_FAR_APART)
            .toList();
    assertEquals(3, apart.size(), "one for each layer: " + result.findings());
    assertEquals("ILM-BM: spacing is 3.20 mm, 0.40 mm is the most", apart.get(0).detail());
    assertTrue(Files.exists(result.folder().boundaries(three.identity().sopUid())));
    assertTrue(
        result.tables().stream()
            .filter(table -> table.scan().sopUid().equals(three.identity().sopUid()))
            .flatMap(table -> table.sectors().stream())
            .noneMatch(Measured.class::isInstance));
  }

  @Test
  void aScanAroundTheDiscGivesNoGrid() throws Exception {
    OctScan disc =
        SampleScans.scanAwayFromFovea(
            "disc", ScanPlan.raster(new ScanSize(19, 128, 400), 3.87, 6.0, 6.0, 0), 4.4);

    JobResult result = run(List.of(disc, SampleScans.right("good", 1)));

    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.status());
    assertEquals("disc", only(result, FindingKind.NO_MACULA).subject());
    assertEquals(List.of("good"), locations(result));
  }

  @Test
  void everyScanHasItsQualityAlsoARefusedOne() throws Exception {
    OctScan flat =
        SampleScans.withFrames(
            SampleScans.right("flat", 0), (frame, into) -> Arrays.fill(into, 40));

    JobResult result = run(List.of(flat, SampleScans.right("good", 1)));

    List<String> lines = Files.readAllLines(result.folder().quality());
    assertEquals(1 + 2 * (1 + 19), lines.size());
    assertTrue(lines.get(1).contains(",refused,"), lines.get(1));
    assertTrue(lines.get(1).contains(",constant-image,"), lines.get(1));
    assertTrue(lines.get(21).contains(",measured,"), lines.get(21));
    assertTrue(
        result.files().stream().anyMatch(file -> file.path().equals(result.folder().quality())));
  }

  @Test
  void anUnknownEyeOrPlaceGivesBoundariesOnlyAndIsSaidOnce() throws Exception {
    OctScan unknown = SampleScans.withoutLaterality(SampleScans.right("unknown", 0));
    OctScan nowhere = SampleScans.withoutPath(SampleScans.right("nowhere", 0));
    Finding said = new Finding(FindingKind.NO_LATERALITY, "unknown", "Image Laterality is absent");

    JobResult result = run(request(), List.of(unknown, nowhere), said);

    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.status());
    assertEquals(said, only(result, FindingKind.NO_LATERALITY));
    assertEquals("nowhere", only(result, FindingKind.NO_PLACEMENT).subject());
    assertEquals(List.of(), result.tables());
    assertTrue(Files.exists(result.folder().boundaries(unknown.identity().sopUid())));
  }

  @Test
  void anImageWithoutARetinaGivesNothing() throws Exception {
    OctScan flat =
        SampleScans.withFrames(
            SampleScans.right("flat", 0), (frame, into) -> Arrays.fill(into, 40));

    JobResult result = run(List.of(flat));

    assertEquals(ExitStatus.NOTHING_MEASURABLE, result.status());
    Finding finding = result.findings().get(0);
    assertEquals("flat", finding.subject());
    assertEquals(FindingKind.Gravity.NOT_MEASURED, finding.kind().gravity());
    assertEquals(List.of(), result.tables());
    assertEquals("not-measured", result.run().inputs().get(0).outcome());
  }

  @Test
  void comparesEveryLaterVisitWithTheFirst() throws Exception {
    List<OctScan> scans =
        List.of(
            SampleScans.right("third", 2),
            SampleScans.right("first", 0),
            SampleScans.right("second", 1));

    JobResult result = run(request().comparedWith(BaselineChoice.FIRST), scans);

    assertEquals(ExitStatus.ALL_MEASURED, result.status(), result.findings().toString());
    assertEquals(
        List.of("1.2.3.1 28", "1.2.3.2 56"),
        result.changes().stream()
            .filter(change -> change.table().layer().equals(Layer.ILM_BM))
            .map(
                change ->
                    change.table().followUp().studyUid() + " " + change.table().days().getAsLong())
            .toList());
    assertTrue(
        result.changes().stream()
            .allMatch(change -> change.table().baseline().studyUid().equals("1.2.3.0")));
  }

  @Test
  void refusesToCompareAcrossRefractiveIndexes() throws Exception {
    List<OctScan> scans =
        List.of(
            SampleScans.withIndex(SampleScans.right("first", 0), 1.36),
            SampleScans.withIndex(SampleScans.right("second", 1), 1.38));

    JobResult result = run(request().comparedWith(BaselineChoice.FIRST), scans);

    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.status());
    assertEquals("second", only(result, FindingKind.DEFINITIONS_DIFFER).subject());
    assertEquals(List.of(), result.changes());
    assertEquals(List.of("first", "second"), locations(result));
  }

  @Test
  void saysWhenThereIsNothingToCompareWith() throws Exception {
    JobResult alone =
        run(request().comparedWith(BaselineChoice.FIRST), List.of(SampleScans.right("alone", 0)));
    JobResult wrong =
        run(
            request().comparedWith(BaselineChoice.of("9.9.9")),
            List.of(SampleScans.right("alone", 0)));

    assertEquals(ExitStatus.ALL_MEASURED, alone.status());
    assertEquals("patient TSEU-1, right eye", only(alone, FindingKind.NO_BASELINE).subject());
    assertEquals(ExitStatus.SOME_NOT_MEASURED, wrong.status());
    assertEquals("9.9.9", only(wrong, FindingKind.BASELINE_UNKNOWN).subject());
  }

  @Test
  void aFileThatCannotBeWrittenIsAFindingAboutItsScan() throws Exception {
    Files.writeString(folder.resolve("boundaries"), "a file where a folder should be");

    JobResult result = run(List.of(SampleScans.right("good", 0)));

    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.status());
    assertEquals("good", only(result, FindingKind.NOT_WRITTEN).subject());
    assertEquals(List.of("good"), locations(result), "the numbers are still in the table");
  }

  @Test
  void tellsItsListenerInOrder() throws Exception {
    List<String> told = new ArrayList<>();
    JobListener listener =
        new JobListener() {
          @Override
          public void found(int filesSeen, int objects) {
            told.add("found " + objects);
          }

          @Override
          public void started(String location) {
            told.add("started " + location);
          }

          @Override
          public void finished(String location, long millis) {
            told.add("finished " + location);
          }
        };
    job(SampleScans.right("a", 0)).run("measure", request(), listener);

    assertEquals(List.of("found 1", "started a", "finished a"), told);
  }

  private List<String> locations(JobResult result) {
    return result.tables().stream()
        .map(table -> table.scan().sopUid())
        .distinct()
        .map(
            uid ->
                result.run().inputs().stream()
                    .filter(input -> input.sopUid().equals(uid))
                    .findFirst()
                    .orElseThrow()
                    .location())
        .toList();
  }

  private static Finding only(JobResult result, FindingKind kind) {
    List<Finding> found =
        result.findings().stream().filter(finding -> finding.kind() == kind).toList();
    assertEquals(1, found.size(), result.findings().toString());
    return found.get(0);
  }

  private JobRequest request() {
    return JobRequest.of(List.of(folder.resolve("in")), folder)
        .writing(EnumSet.of(Output.BOUNDARIES));
  }

  private JobResult run(List<OctScan> scans) throws IOException, InterruptedException {
    return run(request(), scans);
  }

  private static JobResult run(JobRequest request, List<OctScan> scans, Finding... findings)
      throws IOException, InterruptedException {
    return job(scans, findings).run("measure", request, JobListener.SILENT);
  }

  private static ThicknessJob job(OctScan scan) {
    return job(List.of(scan));
  }

  private static ThicknessJob job(List<OctScan> scans, Finding... findings) {
    return new ThicknessJob(
        inputs -> SampleScans.contents(scans, findings),
        (map, source, provenance, target) ->
            new MapWriteResult.Refused(MapWriteResult.Reason.NO_VALUES, "not asked for"),
        Software.current());
  }
}
