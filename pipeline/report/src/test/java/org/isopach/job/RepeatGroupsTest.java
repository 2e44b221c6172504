package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

/** Which scans are repeats of each other; nothing is measured. */
class RepeatGroupsTest {
  private static final LocalDateTime NOON = LocalDateTime.of(2026, 2, 3, 12, 0);

  @Test
  void groupsByEyeAndCalendarDay() {
    List<OctScan> scans =
        List.of(
            scan("late", NOON.withHour(23).withMinute(59)),
            scan("early", NOON.withHour(0)),
            scan("next", NOON.plusDays(1).withHour(0)),
            patient(scan("other", NOON), "TSEU-2", ""));

    assertEquals(
        List.of(List.of("early", "late"), List.of("next"), List.of("other")), names(scans, 0));
    assertEquals(List.of(List.of("early", "late", "next"), List.of("other")), names(scans, 1));
    assertEquals(List.of("NO_REPEAT next", "NO_REPEAT other"), findings(RepeatGroups.of(scans, 0)));
  }

  /** Days count from the first repeat, not from one to the next. */
  @Test
  void countsDaysFromTheFirst() {
    List<OctScan> scans =
        List.of(scan("0", NOON), scan("2", NOON.plusDays(2)), scan("4", NOON.plusDays(4)));

    assertEquals(List.of(List.of("0", "2"), List.of("4")), names(scans, 3));
  }

  @Test
  void keepsPatternsApartButNotTurnedEyes() {
    OctScan usual = scan("usual", NOON);
    OctScan turned = withPlan("turned", new ScanSize(19, 96, 400), 6.4, 8);
    OctScan upright = withPlan("upright", new ScanSize(19, 96, 400), 6.4, 90);
    OctScan wider = withPlan("wider", new ScanSize(19, 96, 400), 9.0, 0);
    OctScan denser = withPlan("denser", new ScanSize(25, 96, 400), 6.4, 0);

    List<List<String>> names = names(List.of(usual, turned, upright, wider, denser), 0);

    assertEquals(4, names.size(), names.toString());
    assertEquals(List.of("usual", "turned"), names.get(0));
  }

  @Test
  void keepsIssuersApart() {
    List<OctScan> scans =
        List.of(
            patient(scan("one", NOON), "TSEU-1", "Tern Sound"),
            patient(scan("two", NOON.plusMinutes(1)), "TSEU-1", "Gannet"));

    assertEquals(List.of(List.of("one"), List.of("two")), names(scans, 0));
    assertEquals("PATIENT_ID_AMBIGUOUS patient TSEU-1", findings(RepeatGroups.of(scans, 0)).get(0));
  }

  @Test
  void leavesOutWhatCannotBeTold() {
    OctScan undated = scan("undated", Optional.empty());
    OctScan nobody = patient(scan("nobody", NOON), "", "");
    OctScan sideless = SampleScans.withoutLaterality(scan("sideless", NOON));
    OctScan placeless = SampleScans.withoutPath(scan("placeless", NOON));
    RepeatGroups groups =
        RepeatGroups.of(List.of(undated, nobody, sideless, placeless, scan("good", NOON)), 0);

    assertEquals(List.of(undated, nobody, sideless, placeless), groups.loose());
    assertEquals(1, groups.groups().size());
    assertEquals(
        List.of("REPEAT_UNDATED undated", "NO_PATIENT nobody", "NO_REPEAT good"), findings(groups));
  }

  private static OctScan withPlan(String name, ScanSize size, double side, double degrees) {
    ScanPlan plan = ScanPlan.raster(size, 3.87, side, side, degrees);
    return at(SampleScans.scan(name, 0, plan), Optional.of(NOON.plusMinutes(1)));
  }

  private static OctScan scan(String name, LocalDateTime time) {
    return scan(name, Optional.of(time));
  }

  private static OctScan scan(String name, Optional<LocalDateTime> time) {
    return at(SampleScans.right(name, 0), time);
  }

  private static OctScan at(OctScan scan, Optional<LocalDateTime> time) {
    ScanIdentity known = scan.identity();
    return SampleScans.withIdentity(
        scan,
        new ScanIdentity(
            known.patientId(), known.studyUid(), known.seriesUid(), known.sopUid(), time));
  }

  private static OctScan patient(OctScan scan, String patient, String issuer) {
    ScanIdentity known = scan.identity();
    return SampleScans.withIdentity(
        scan,
        new ScanIdentity(
            patient,
            known.studyUid(),
            known.seriesUid(),
            known.sopUid(),
            known.acquired(),
            issuer));
  }

  private static List<List<String>> names(List<OctScan> scans, int days) {
    return RepeatGroups.of(scans, days).groups().stream()
        .map(group -> group.scans().stream().map(scan -> scan.document().location()).toList())
        .toList();
  }

  private static List<String> findings(RepeatGroups groups) {
    return groups.findings().stream()
        .map(finding -> finding.kind() + " " + finding.subject())
        .toList();
  }
}
