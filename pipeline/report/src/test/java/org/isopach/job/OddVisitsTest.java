package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDateTime;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.change.ChangeUncertainty;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.report.Software;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Visits whose patient or order cannot be taken for granted. */
class OddVisitsTest {
  private static final LocalDateTime DAY = LocalDateTime.of(2026, 2, 3, 0, 0);

  @TempDir Path folder;

  @Test
  void oneIdentifierOfTwoIssuersIsTwoPatients() throws Exception {
    JobResult result =
        compare(BaselineChoice.FIRST, visit(0, Optional.of(DAY), "Tern Sound"), later("Gannet"));

    assertEquals(List.of(), result.changes());
    assertEquals(
        List.of(
            "PATIENT_ID_AMBIGUOUS patient TSEU-1",
            "NO_BASELINE patient TSEU-1 (issued by Tern Sound), right eye",
            "NO_BASELINE patient TSEU-1 (issued by Gannet), right eye"),
        words(result));
    assertEquals(
        2,
        result.tables().stream().filter(table -> table.layer().equals(Layer.ILM_BM)).count(),
        "both are measured");
  }

  @Test
  void anIssuerThatIsNotNamedGoesWithTheOnlyOneThatIs() throws Exception {
    JobResult result =
        compare(BaselineChoice.FIRST, visit(0, Optional.of(DAY), "Tern Sound"), later(""));

    assertEquals(1, changes(result));
    assertEquals(List.of(), words(result));
  }

  @Test
  void withoutDatesThereIsNoFirstVisit() throws Exception {
    OctScan undated = visit(0, Optional.empty(), "");

    JobResult refused = compare(BaselineChoice.FIRST, undated, later(""));
    JobResult named = compare(BaselineChoice.of(undated.identity().studyUid()), undated, later(""));

    assertEquals(List.of(), refused.changes());
    assertEquals("VISIT_ORDER_UNKNOWN patient TSEU-1, right eye", words(refused).get(0));
    assertEquals(ExitStatus.SOME_NOT_MEASURED, refused.status());
    assertEquals(1, changes(named));
    assertEquals(undated.identity(), named.changes().get(0).table().baseline());
  }

  @Test
  void twoVisitsOfOneTimeHaveNoOrder() throws Exception {
    JobResult result =
        compare(
            BaselineChoice.FIRST, visit(0, Optional.of(DAY), ""), visit(1, Optional.of(DAY), ""));

    assertEquals(List.of(), result.changes());
    assertEquals(List.of("VISIT_ORDER_UNKNOWN patient TSEU-1, right eye"), words(result));
  }

  @Test
  void ofTwoScansAtTheBaselineTheOneChosenIsNamed() throws Exception {
    OctScan first = visit(0, Optional.of(DAY), "");
    OctScan again = SampleScans.right("again", 0);
    OctScan repeat =
        SampleScans.withIdentity(
            again,
            new ScanIdentity("TSEU-1", "1.2.3.0", "1.2.3.0.1", "1.2.3.0.9", Optional.of(DAY)));

    JobResult result = compare(BaselineChoice.FIRST, first, repeat, later(""));

    assertEquals(1, changes(result));
    assertEquals(first.identity(), result.changes().get(0).table().baseline());
    assertEquals(
        List.of(
            "the baseline visit has 2 scans of this eye; compared with the one most like in"
                + " pattern, visit 0"),
        result.findings().stream()
            .filter(finding -> finding.kind() == FindingKind.BASELINE_CHOSEN)
            .map(Finding::detail)
            .toList());
  }

  @Test
  void saysByWhatVisitsAreLaidWhenTheirVesselsAreNotFound() throws Exception {
    JobResult result = compare(BaselineChoice.FIRST, visit(0, Optional.of(DAY), ""), later(""));

    List<Finding> said =
        result.findings().stream()
            .filter(finding -> finding.kind() == FindingKind.VESSELS_NOT_MATCHED)
            .toList();
    assertEquals(1, said.size());
    assertTrue(
        said.get(0).detail().startsWith("laid on the baseline by foveal-pit from visit 0: "),
        said.get(0).detail());
    assertEquals("foveal-pit", result.changes().get(0).alignment());
    assertEquals(ExitStatus.ALL_MEASURED, result.status());
  }

  @Test
  void onePictureUnderTwoIdentifiersIsNotCompared() throws Exception {
    OctScan first = visit(0, Optional.of(DAY), "");
    OctScan copy =
        SampleScans.withIdentity(
            SampleScans.right("visit 0", 0),
            new ScanIdentity(
                "TSEU-1", "1.2.3.7", "1.2.3.7.1", "1.2.3.7.2", Optional.of(DAY.plusDays(9))));

    JobResult result = compare(BaselineChoice.FIRST, first, copy);

    assertEquals(List.of(), result.changes());
    assertEquals(List.of("NOT_COMPARABLE visit 0"), words(result));
    assertEquals(
        "no change from visit 0: both objects hold the same picture, pixel by pixel, under two"
            + " identifiers",
        result.findings().get(0).detail());
  }

  @Test
  void visitsMayComeInAnyOrderAndAreJudgedWhereNoiseIsKnown() throws Exception {
    OctScan first = visit(0, Optional.of(DAY), "");

    JobResult result = compare(BaselineChoice.FIRST, later(""), first);

    assertEquals(first.identity(), result.changes().get(0).table().baseline());
    assertEquals(28, result.changes().get(0).table().days().getAsLong());
    SectorChange.MeasuredChange sector =
        assertInstanceOf(
            SectorChange.MeasuredChange.class,
            result.changes().stream()
                .filter(change -> change.table().layer().equals(Layer.ILM_BM))
                .findFirst()
                .orElseThrow()
                .table()
                .sector("inner-nasal")
                .orElseThrow());
    assertEquals(
        "0 pairs of scans of one day in the folder, 3 are needed; nothing published at hand for"
            + " this place and layer (normal eyes)",
        assertInstanceOf(ChangeUncertainty.NotGiven.class, sector.uncertainty()).reason());
  }

  @Test
  void aSeriesSaysWhenItsFirstVisitIsNotKnownAndWhatHasNoDate() throws Exception {
    OctScan undated = visit(3, Optional.empty(), "");
    JobRequest request =
        JobRequest.of(List.of(folder.resolve("in")), folder).writing(EnumSet.noneOf(Output.class));

    SeriesResult result =
        new SeriesJob(
                inputs ->
                    SampleScans.contents(
                        List.of(
                            visit(1, Optional.of(DAY), ""),
                            visit(0, Optional.of(DAY), ""),
                            undated)),
                (map, source, provenance, target) ->
                    new MapWriteResult.Refused(MapWriteResult.Reason.NO_VALUES, "not asked for"),
                Software.current())
            .run(
                new SeriesRequest(request, SeriesRules.USUAL, Optional.empty()),
                JobListener.SILENT);

    assertEquals(
        List.of(
            "VISIT_ORDER_UNKNOWN patient TSEU-1, right eye",
            "SERIES_EXCLUDED " + undated.document().location()),
        words(result.job()));
    assertEquals(ExitStatus.SOME_NOT_MEASURED, result.job().status());
  }

  private static long changes(JobResult result) {
    return result.changes().stream()
        .filter(change -> change.table().layer().equals(Layer.ILM_BM))
        .count();
  }

  private static OctScan later(String issuer) {
    return visit(1, Optional.of(DAY.plusDays(28)), issuer);
  }

  private static OctScan visit(int number, Optional<LocalDateTime> acquired, String issuer) {
    OctScan scan = SampleScans.right("visit " + number, number);
    ScanIdentity known = scan.identity();
    return SampleScans.withIdentity(
        scan,
        new ScanIdentity(
            known.patientId(),
            known.studyUid(),
            known.seriesUid(),
            known.sopUid(),
            acquired,
            issuer));
  }

  /** All but that the vessels of these small scans cannot be matched. */
  private static List<String> words(JobResult result) {
    return result.findings().stream()
        .filter(finding -> finding.kind() != FindingKind.VESSELS_NOT_MATCHED)
        .map(finding -> finding.kind() + " " + finding.subject())
        .toList();
  }

  private JobResult compare(BaselineChoice baseline, OctScan... scans) throws Exception {
    JobRequest request =
        JobRequest.of(List.of(folder.resolve("in")), folder)
            .writing(EnumSet.noneOf(Output.class))
            .comparedWith(baseline);
    return new ThicknessJob(
            inputs -> SampleScans.contents(List.of(scans)),
            (map, source, provenance, target) ->
                new MapWriteResult.Refused(MapWriteResult.Reason.NO_VALUES, "not asked for"),
            Software.current())
        .run("compare", request, JobListener.SILENT);
  }
}
