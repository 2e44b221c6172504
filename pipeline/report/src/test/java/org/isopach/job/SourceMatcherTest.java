package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.DerivedKind;
import org.isopach.dicom.DerivedObject;
import org.junit.jupiter.api.Test;

/** An object is matched by the source it names; only one that names none by study and eye. */
class SourceMatcherTest {
  private static final OctScan FIRST = SampleScans.right("first", 0);
  private static final OctScan OTHER_VISIT = SampleScans.right("later", 1);
  private static final SourceMatcher MATCHER = new SourceMatcher(List.of(FIRST, OTHER_VISIT));

  private static DerivedObject object(
      DerivedKind kind, ScanIdentity identity, Set<Laterality> eyes, Set<String> sources) {
    return object(kind, identity, eyes, sources, "");
  }

  private static DerivedObject object(
      DerivedKind kind,
      ScanIdentity identity,
      Set<Laterality> eyes,
      Set<String> sources,
      String frame) {
    return new DerivedObject(
        kind, identity, eyes, "Kittiwake 4.1", "object", sources, frame, List.of());
  }

  private static ScanIdentity identity(String patient, String issuer, OctScan scan) {
    return new ScanIdentity(
        patient, scan.identity().studyUid(), "1.9", "1.9.1", Optional.empty(), issuer);
  }

  private static Set<Laterality> eye(OctScan scan) {
    return Set.of(scan.laterality().orElseThrow());
  }

  private static Set<Laterality> otherEye(OctScan scan) {
    return Set.of(
        scan.laterality().orElseThrow() == Laterality.RIGHT ? Laterality.LEFT : Laterality.RIGHT);
  }

  @Test
  void theNamedSourceIsTaken() {
    SourceMatcher.Match match =
        MATCHER.match(
            object(
                DerivedKind.HEIGHT_MAP,
                identity("TSEU-1", "", OTHER_VISIT),
                Set.of(),
                Set.of(FIRST.identity().sopUid())));
    assertEquals(List.of(FIRST), match.scans());
    assertEquals("source-instance", match.way());
  }

  @Test
  void aSourceThatIsNotThereIsNeverReplacedByAnother() {
    SourceMatcher.Match match =
        MATCHER.match(
            object(
                DerivedKind.GRID_REPORT,
                identity("TSEU-1", "", FIRST),
                eye(FIRST),
                Set.of("1.2.99")));
    assertEquals(List.of(), match.scans());
    assertTrue(match.why().endsWith("not among the inputs: 1.2.99"), match.why());
  }

  @Test
  void anotherPatientOrEyeIsAnObjection() {
    Set<String> source = Set.of(FIRST.identity().sopUid());
    assertEquals(
        "it names the scan, but is of another patient",
        MATCHER
            .match(object(DerivedKind.GRID_REPORT, identity("TSEU-2", "", FIRST), Set.of(), source))
            .why());
    assertEquals(
        "it names the scan, but is of the other eye",
        MATCHER
            .match(
                object(
                    DerivedKind.GRID_REPORT,
                    identity("TSEU-1", "", FIRST),
                    otherEye(FIRST),
                    source))
            .why());
  }

  @Test
  void withoutSourceTheOnlyScanOfStudyAndEyeIsTaken() {
    ScanIdentity own = identity("TSEU-1", "TSEU", FIRST);
    SourceMatcher.Match match =
        MATCHER.match(object(DerivedKind.GRID_REPORT, own, eye(FIRST), Set.of()));
    assertEquals(List.of(FIRST), match.scans());
    assertEquals("study-and-eye", match.way());
    assertTrue(
        MATCHER
            .match(object(DerivedKind.GRID_REPORT, own, otherEye(FIRST), Set.of()))
            .why()
            .contains("0 scans"));
    OctScan twin = SampleScans.right("twin", 0);
    assertTrue(
        new SourceMatcher(List.of(FIRST, twin))
            .match(object(DerivedKind.GRID_REPORT, own, eye(FIRST), Set.of()))
            .why()
            .contains("2 scans"));
  }

  @Test
  void pixelsWithoutSourceNeedTheScansFrameOfReference() {
    ScanIdentity own = identity("TSEU-1", "", FIRST);
    assertEquals(
        "it names no source and no frame of reference",
        MATCHER.match(object(DerivedKind.HEIGHT_MAP, own, eye(FIRST), Set.of())).why());
    assertTrue(
        MATCHER
            .match(object(DerivedKind.HEIGHT_MAP, own, eye(FIRST), Set.of(), "1.2.98"))
            .why()
            .endsWith("in its frame of reference"));
  }
}
