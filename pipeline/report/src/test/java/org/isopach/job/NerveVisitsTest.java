package org.isopach.job;

import static org.isopach.job.HandMadeNerve.CIRCLE;
import static org.isopach.job.HandMadeNerve.humps;
import static org.isopach.job.HandMadeNerve.part;
import static org.isopach.job.HandMadeNerve.sopUid;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.table.NerveChange;
import org.isopach.report.table.NerveKey;
import org.isopach.report.table.NerveMeasure;
import org.junit.jupiter.api.Test;

/** Which scans of the nerve stand for a visit, what their noise is, and what is said of them. */
class NerveVisitsTest {
  private static final NerveKey GLOBAL =
      new NerveKey(NerveMeasure.FIBRES, CircleSight.FIBRES.name(), "", "global");
  private static final Finding OFF =
      HandMadeNerve.finding(FindingKind.CIRCLE_OFF_DISC, "the circle runs into the disc");
  private static final Finding SHIFTED =
      HandMadeNerve.finding(FindingKind.CIRCLE_SHIFTED, "the circle's centre lies 0.20 mm away");

  @Test
  void circleOffTheDiscStandsForNoVisitAndTellsNoNoise() {
    NerveGroup group =
        only(
            CIRCLE.scan(0, 0, humps(1, 0), OFF),
            CIRCLE.scan(0, 1, humps(2, 0)),
            CIRCLE.scan(1, 0, humps(3, -30), OFF));

    assertEquals(List.of(sopUid(0, 1)), uids(group.visits()));
    assertEquals(List.of(), group.repeats());
    assertEquals(List.of(), compare(group));
  }

  @Test
  void scanWithoutAMeanDoesNotStandForAVisitThatHasABetterOne() {
    NerveGroup group =
        only(
            CIRCLE.scan(0, 0, part(humps(1, 0), 0, 200)),
            CIRCLE.scan(0, 1, humps(2, 0)),
            CIRCLE.scan(1, 0, part(humps(3, 0), 0, 200)));

    assertEquals(List.of(sopUid(0, 1), sopUid(1, 0)), uids(group.visits()));
  }

  @Test
  void shiftIsSaidWithEveryChangeOfTheCircle() {
    NerveGroup group =
        only(CIRCLE.scan(0, 0, humps(1, 0)), CIRCLE.scan(1, 0, humps(2, 0), SHIFTED));

    NerveChange global = compare(group).get(0);

    assertTrue(
        global.words().endsWith("; at the follow-up the circle's centre lies 0.20 mm away"),
        global.words());
    assertTrue(global.words().startsWith("within test–retest of the baseline"), global.words());
  }

  /** One of two circles 0.7 mm apart is off the disc: what differs tells nothing of a loss. */
  @Test
  void circlesKnownToLieApartAreNotCompared() {
    NerveBook book =
        HandMadeNerve.book(
            CIRCLE.movedUp(0, 0, 0, humps(1, 0)),
            CIRCLE.movedUp(0.7, 0, 1, humps(2, -30)),
            CIRCLE.movedUp(0.7, 1, 0, humps(3, -30)),
            CIRCLE.movedUp(0.05, 2, 0, humps(4, 0)));

    List<NerveGroup> groups = NerveGroup.of(book);

    assertEquals(2, groups.size());
    assertEquals(List.of(sopUid(0, 0), sopUid(2, 0)), uids(groups.get(0).visits()));
    assertEquals(List.of(sopUid(0, 1), sopUid(1, 0)), uids(groups.get(1).visits()));
    assertEquals(List.of(), groups.get(0).repeats(), "the two of one day are no repeats");
    List<Finding> said = CircleDistance.notCompared(book);
    assertEquals(
        List.of("scan " + sopUid(0, 1), "scan " + sopUid(1, 0), "scan " + sopUid(2, 0)),
        said.stream().map(Finding::subject).toList());
    assertTrue(said.get(0).detail().contains("lies 0.70 mm from"), said.get(0).detail());
    NerveChange global = compare(groups.get(0)).get(0);
    assertTrue(
        global.words().endsWith("; the centres of these two circles lie 0.05 mm apart"),
        global.words());
  }

  /** Without a frame of reference in common nothing is known of how circles lie. */
  @Test
  void circlesOfUnknownFramesAreCompared() {
    NerveGroup group = only(CIRCLE.scan(0, 0, humps(1, 0)), CIRCLE.movedUp(0.7, 1, 0, humps(2, 0)));
    assertEquals(2, group.visits().size());
  }

  @Test
  void profilesThatShareLessThanHalfOfTheCircleEndNothing() {
    NerveGroup group =
        only(
            repeats(
                CIRCLE,
                CIRCLE.scan(9, 0, part(humps(98, 0), 0, 200)),
                CIRCLE.scan(10, 0, part(humps(99, 0), 170, 360))));
    BaselineChoice ninth = BaselineChoice.of("2.25.9");

    List<NerveChange> changes =
        new NerveComparer(new NerveNoise(List.of(group))).compare(group, ninth);

    NerveChange last = changes.get(changes.size() - 1);
    assertEquals(NerveMeasure.FIBRE_DEFECT, last.key().measure());
    assertTrue(last.words().startsWith("local defects are not looked for: "), last.words());
    assertTrue(last.words().contains("half"), last.words());
  }

  @Test
  void repeatsOfOneDiameterTellNothingOfAnother() {
    HandMadeNerve wide = new HandMadeNerve(4.7, NerveRole.CIRCLE);
    List<NerveGroup> groups =
        NerveGroup.of(
            HandMadeNerve.book(
                repeats(CIRCLE, wide.scan(8, 0, humps(97, 0)), wide.scan(9, 0, humps(98, 0)))));
    assertEquals(2, groups.size());

    NerveNoise noise = new NerveNoise(groups);

    assertEquals(NoiseSource.SAME_DAY_REPEATS, source(noise, groups.get(0)));
    assertTrue(noise.ofProfile(groups.get(0)).isPresent());
    assertEquals(NoiseSource.PUBLISHED, source(noise, groups.get(1)));
    assertEquals(Optional.empty(), noise.ofProfile(groups.get(1)));
  }

  @Test
  void repeatsOfNearlyOneDiameterCountTogether() {
    HandMadeNerve longEye = new HandMadeNerve(3.7, NerveRole.CIRCLE);
    List<NerveScan> scans = new ArrayList<>();
    for (int visit = 0; visit < 3; visit++) {
      HandMadeNerve one = visit < 2 ? CIRCLE : longEye;
      scans.add(one.scan(visit, 0, humps(visit, 0)));
      scans.add(one.scan(visit, 1, humps(10 + visit, 0)));
    }
    List<NerveGroup> groups = NerveGroup.of(HandMadeNerve.book(scans.toArray(NerveScan[]::new)));
    assertEquals(2, groups.size());

    NerveNoise noise = new NerveNoise(groups);

    assertEquals(NoiseSource.SAME_DAY_REPEATS, source(noise, groups.get(0)));
    assertEquals(NoiseSource.SAME_DAY_REPEATS, source(noise, groups.get(1)));
  }

  @Test
  void publishedNoiseIsNotThatOfCirclesLaidIntoVolumes() {
    HandMadeNerve volume = new HandMadeNerve(3.46, NerveRole.DISC_VOLUME);
    NerveGroup laid = only(volume.scan(0, 0, humps(1, 0)), volume.scan(1, 0, humps(2, 0)));
    NerveGroup circles = only(CIRCLE.scan(0, 0, humps(1, 0)), CIRCLE.scan(1, 0, humps(2, 0)));

    String words = "not measured for circles laid into volumes by this program";
    SectorNoise noise = new NerveNoise(List.of(laid)).of(laid, GLOBAL).orElseThrow();
    assertTrue(noise.reference().endsWith(words), noise.reference());
    assertEquals(9.04 / (1.96 * Math.sqrt(2)), noise.sdUm(), 0.001);
    assertTrue(compare(laid).get(0).words().endsWith(words), compare(laid).get(0).words());
    assertTrue(
        compare(circles).stream().noneMatch(change -> change.words().contains(words)),
        "a circle scan lies where it was put");
  }

  @Test
  void scanOfUnknownDateIsNamedWhereAnotherVisitIsThere() {
    NerveScan dated = CIRCLE.scan(1, 0, humps(2, 0));
    NerveScan undated = CIRCLE.undated(0, humps(1, 0));

    List<Finding> said = NerveGroup.leftOut(HandMadeNerve.book(undated, dated));

    assertEquals(1, said.size());
    assertEquals(FindingKind.NOT_COMPARABLE, said.get(0).kind());
    assertEquals("scan " + sopUid(0, 0), said.get(0).subject());
    assertTrue(said.get(0).detail().contains("when the scan was made is not known"));
    assertEquals(List.of(), NerveGroup.leftOut(HandMadeNerve.book(undated)));
    assertEquals(List.of(), NerveGroup.leftOut(HandMadeNerve.book(dated)));
  }

  @Test
  void directionsChangeTheShorterWayRound() {
    assertEquals(2, change(NerveMeasure.DISC_TILT_TOWARDS, 359, 1), 1e-9);
    assertEquals(-2, change(NerveMeasure.DISC_TILT_TOWARDS, 1, 359), 1e-9);
    assertEquals(-358, change(NerveMeasure.FIBRES, 359, 1), 1e-9);
  }

  private static double change(NerveMeasure measure, double from, double to) {
    ScanIdentity scan = CIRCLE.scan(0, 0, humps(1, 0)).sighting().scan().identity();
    return NerveChange.between(
            HandMadeNerve.EYE,
            "disc-volume",
            new NerveKey(measure, "", "", "disc"),
            scan,
            scan,
            OptionalLong.of(0),
            OptionalDouble.of(from),
            OptionalDouble.of(to),
            Optional.empty(),
            "")
        .change()
        .orElseThrow();
  }

  /** Three pairs of repeats and some scans more. */
  private static NerveScan[] repeats(HandMadeNerve nerve, NerveScan... more) {
    List<NerveScan> scans = new ArrayList<>();
    for (int visit = 0; visit < 3; visit++) {
      scans.add(nerve.scan(visit, 0, humps(visit, 0)));
      scans.add(nerve.scan(visit, 1, humps(10 + visit, 0)));
    }
    scans.addAll(List.of(more));
    return scans.toArray(NerveScan[]::new);
  }

  private static NoiseSource source(NerveNoise noise, NerveGroup group) {
    return noise.of(group, GLOBAL).orElseThrow().source();
  }

  private static NerveGroup only(NerveScan... scans) {
    List<NerveGroup> groups = NerveGroup.of(HandMadeNerve.book(scans));
    assertEquals(1, groups.size());
    return groups.get(0);
  }

  private static List<NerveChange> compare(NerveGroup group) {
    return new NerveComparer(new NerveNoise(List.of(group))).compare(group, BaselineChoice.FIRST);
  }

  private static List<String> uids(List<NerveBook.Entry> entries) {
    return entries.stream().map(NerveBook.Entry::sopUid).toList();
  }
}
