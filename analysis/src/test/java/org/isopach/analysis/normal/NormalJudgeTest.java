package org.isopach.analysis.normal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.normal.NormalPlace.NotPlaced;
import org.isopach.analysis.normal.NormalPlace.Placed;
import org.isopach.analysis.normal.NormalPlace.Reason;
import org.isopach.analysis.series.AgeSlope;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormalJudgeTest {
  private static final OptionalDouble NONE = OptionalDouble.empty();
  private static final NormalEye ADULT = Groups.eye(50, 24);

  /** Tables of the normal distribution; the quantiles are rounded to three decimals. */
  @ParameterizedTest
  @CsvSource({"-2.326,1", "-1.645,5", "0,50", "0.674,75", "1.645,95", "1.960,97.5", "2.326,99"})
  void agreesWithTheTableOfTheNormalDistribution(double z, double percentile) {
    Placed placed = placed(93.42 + z * 9.30, ADULT, Groups.SEVERAL_SITES);

    assertEquals(z, placed.z(), 1e-12);
    assertEquals(percentile, placed.percentile(), 0.02);
    assertEquals(
        93.42 + z * 9.30,
        Groups.judge(Groups.SEVERAL_SITES)
            .limits(Groups.circle(3.46), ADULT)
            .orElseThrow()
            .umAt(placed.percentile()),
        1e-6);
  }

  @Test
  void saysBandIntervalGroupAndCaution() {
    Placed placed = placed(90.33, ADULT, Groups.SEVERAL_SITES);

    assertEquals(
        "between the 5th and the 95th percentile of this reference group, at the 37th percentile"
            + " (95 % interval 32 to 42): several-sites (normal eyes, N = 239)",
        placed.words());
    assertEquals(NormalJudge.INDICATIVE, placed.notes().get(0));
    assertTrue(
        placed.notes().contains("age not accounted for: the source states no ages"),
        placed.notes().toString());
  }

  @ParameterizedTest
  @CsvSource({
    "60,below the 1st percentile,no",
    "71.0,below the 1st percentile,reaches above the 1st",
    "76,between the 1st and the 5th percentile,no",
    "77.8,between the 1st and the 5th percentile,reaches above the 5th",
    "79,between the 5th and the 95th percentile,reaches below the 5th",
    "93,between the 5th and the 95th percentile,no",
    "108,between the 5th and the 95th percentile,reaches above the 95th",
    "112,between the 95th and the 99th percentile,no",
    "116,above the 99th percentile,reaches below the 99th",
    "130,above the 99th percentile,no"
  })
  void saysWhenTheIntervalReachesAnotherBand(double valueUm, String band, String reaches) {
    String words = placed(valueUm, ADULT, Groups.SEVERAL_SITES).words();

    assertTrue(words.startsWith(band + " of this reference group"), words);
    assertEquals(!reaches.equals("no"), words.contains("; the interval reaches"), words);
    assertTrue(reaches.equals("no") || words.contains(reaches), words);
  }

  @Test
  void movesTheMeanWithAgeAxialLengthAndDiscArea() {
    ReferenceRow row =
        new ReferenceRow(
            Groups.source("moving"),
            Groups.circle(3.46),
            100,
            10,
            100,
            Optional.of(new ReferenceSlope(-0.5, 40)),
            Optional.of(new ReferenceSlope(-3, 23.5)),
            Optional.of(new ReferenceSlope(4, 2)),
            Groups.scope(StatedRange.of(20, 79), StatedRange.of(22, 26)));
    NormalEye eye =
        new NormalEye(
            OptionalDouble.of(60),
            OptionalDouble.of(25.5),
            OptionalDouble.of(2.5),
            Optional.empty(),
            Optional.of("spectral-domain"));

    // 100 - 0.5 * 20 - 3 * 2 + 4 * 0.5 = 86
    assertEquals(86, placed(86, eye, row).meanUm(), 1e-12);
    assertEquals(50, placed(86, eye, row).percentile(), 1e-9);
    assertEquals(Reason.AGE_UNKNOWN, refusal(NormalEye.UNKNOWN, row));
    assertEquals(Reason.DISC_AREA_UNKNOWN, refusal(Groups.eye(60, 25.5), row));
  }

  @Test
  void widensTheIntervalByTheGroupsSizeAndTheScansNoise() {
    double large = width(placed(90, ADULT, Groups.global("large", 93.42, 9.30, 2000)));
    double small = width(placed(90, ADULT, Groups.global("small", 93.42, 9.30, 50)));
    NormalJudge judge = Groups.judge(Groups.global("large", 93.42, 9.30, 2000));
    Placed noisy = (Placed) judge.place(90, Groups.circle(3.46), ADULT, OptionalDouble.of(2.6));

    assertTrue(small > 5 * large, small + " " + large);
    assertTrue(width(noisy) > 5 * large, width(noisy) + " " + large);
    assertThrows(
        IllegalArgumentException.class,
        () -> judge.place(90, Groups.circle(3.46), ADULT, OptionalDouble.of(-1)));
  }

  @ParameterizedTest
  @CsvSource({
    "3.46,50,24,Model A,",
    "3.40,50,24,Model A,",
    "3.56,50,24,Model A,",
    "3.57,50,24,Model A,DIAMETER_DIFFERS",
    "3.35,50,24,Model A,DIAMETER_DIFFERS",
    "3.46,82.9,24,Model A,",
    "3.46,83,24,Model A,AGE_OUTSIDE",
    "3.46,19.9,24,Model A,AGE_OUTSIDE",
    "3.46,50,26.01,Model A,AXIAL_LENGTH_OUTSIDE",
    "3.46,50,21.9,Model A,AXIAL_LENGTH_OUTSIDE",
    "3.46,50,24,Model C,DEVICE_NOT_COVERED"
  })
  void keepsToTheScopeTheTableStates(
      double diameter, double age, double axialLength, String model, Reason expected) {
    ReferenceRow row =
        Groups.row(
            "scoped",
            Groups.circle(3.46),
            100,
            10,
            100,
            Groups.scope(StatedRange.of(20, 82), StatedRange.of(22, 26), "Model A", "Model B"));
    NormalEye known = Groups.eye(age, axialLength);
    NormalEye eye =
        new NormalEye(
            known.ageYears(),
            known.axialLengthMm(),
            NONE,
            Optional.of(model),
            Optional.of("spectral-domain"));

    NormalPlace found = Groups.judge(row).place(95, Groups.circle(diameter), eye, NONE);

    assertEquals(expected == null, found instanceof Placed, found.words());
    if (found instanceof NotPlaced refused) {
      assertEquals(expected, refused.reason());
      assertTrue(refused.detail().startsWith("scoped: "), refused.detail());
    }
  }

  @Test
  void refusesOtherMeasuresBoundariesZerosSectorsAndSmallGroups() {
    ReferencePlace gcc =
        new ReferencePlace(
            ReferenceMeasure.CIRCLE,
            "ILM-IPL-INL",
            "",
            ReferencePlace.GLOBAL,
            OptionalDouble.of(3.46),
            Optional.empty());
    ReferencePlace unsized =
        new ReferencePlace(
            ReferenceMeasure.CIRCLE, "ILM-RNFL-GCL", "", "global", NONE, Optional.empty());
    ReferencePlace turned =
        ReferencePlace.circle(Groups.RNFL, "quadrants", "superior", 3.46, "fovea-disc-line");
    ReferenceRow quadrant =
        Groups.row(
            "quadrant",
            Groups.quadrant("superior"),
            117.52,
            15.53,
            239,
            Groups.scope(StatedRange.NOT_STATED, StatedRange.NOT_STATED));

    assertEquals(Reason.BOUNDARIES_DIFFER, refusal(gcc, Groups.SEVERAL_SITES));
    assertEquals(Reason.DIAMETER_DIFFERS, refusal(unsized, Groups.SEVERAL_SITES));
    assertEquals(Reason.SECTOR_UNKNOWN, refusal(Groups.quadrant("nasal"), quadrant));
    assertEquals(Reason.ANGLE_ZERO_DIFFERS, refusal(turned, quadrant));
    assertEquals(
        Reason.NO_REFERENCE,
        refusal(ReferencePlace.rim("quadrants", "global", "horizontal"), quadrant));
    assertEquals(
        Reason.NO_REFERENCE,
        refusal(ReferencePlace.ellipse(Groups.RNFL, "ellipse", "global"), quadrant));
    assertEquals(
        Reason.GROUP_TOO_SMALL,
        refusal(Groups.circle(3.46), Groups.global("few", 93.42, 9.30, 29)));
    assertEquals(
        Reason.NO_VALUE,
        ((NotPlaced)
                Groups.judge(quadrant).place(Double.NaN, Groups.quadrant("superior"), ADULT, NONE))
            .reason());
    assertEquals(Reason.NO_REFERENCE, refusal(Groups.circle(3.46)));
  }

  @Test
  void refusesChildrenWhereTheSourceStatesNoAges() {
    assertEquals(Reason.AGE_OUTSIDE, refusal(Groups.eye(17.9, 23), Groups.SEVERAL_SITES));
    assertTrue(
        placed(93, NormalEye.UNKNOWN, Groups.SEVERAL_SITES).notes().toString().contains("age not"));
  }

  /** A silent source counts for 22 to 26 mm, both ends in it; an unknown length is noted. */
  @Test
  void refusesVeryShortAndVeryLongEyesWhereTheSourceStatesNoLengths() {
    assertEquals(Reason.AXIAL_LENGTH_OUTSIDE, refusal(Groups.eye(50, 26.01), Groups.SEVERAL_SITES));
    assertEquals(Reason.AXIAL_LENGTH_OUTSIDE, refusal(Groups.eye(50, 21.99), Groups.SEVERAL_SITES));
    assertEquals(93.42, placed(93, Groups.eye(50, 26), Groups.SEVERAL_SITES).meanUm());
    assertTrue(
        placed(93, NormalEye.UNKNOWN, Groups.SEVERAL_SITES)
            .notes()
            .contains("axial length not accounted for"));
  }

  @Test
  void refusesSilenceWhenStrict() {
    NormalJudge strict = new NormalJudge(Groups.table(Groups.SEVERAL_SITES), NormalRules.STRICT);
    NotPlaced refused = (NotPlaced) strict.place(93, Groups.circle(3.46), ADULT, NONE);

    assertEquals(Reason.SCOPE_NOT_STATED, refused.reason());
    assertTrue(refused.detail().contains("states no ages"), refused.detail());
    assertTrue(strict.limits(Groups.circle(3.46), ADULT).isEmpty());
  }

  @Test
  void takesTheFirstGroupThatFitsOrTheOneNamed() {
    ReferenceScope young = Groups.scope(StatedRange.of(17, 18), StatedRange.NOT_STATED);
    ReferenceRow teens = Groups.row("teens", Groups.circle(3.46), 99.4, 9.6, 1521, young);
    ReferenceTable table = Groups.table(teens, Groups.SEVERAL_SITES);
    NormalJudge judge = new NormalJudge(table, NormalRules.USUAL);

    assertEquals("teens", group(judge, Groups.eye(17.5, 23)));
    assertEquals("several-sites", group(judge, Groups.eye(30, 23)));
    assertTrue(
        new NormalJudge(table.only("teens"), NormalRules.USUAL)
            .place(93, Groups.circle(3.46), Groups.eye(30, 23), NONE)
            .words()
            .startsWith("no normal limits: teens: age 30 years is outside"));
  }

  @Test
  void givesTheExpectedLossOnlyWithinItsAges() {
    ReferenceAgeing loss =
        new ReferenceAgeing(
            Groups.source("loss"),
            Groups.quadrant("superior"),
            -0.488,
            Groups.scope(StatedRange.of(20, 59), StatedRange.NOT_STATED));
    NormalJudge judge =
        new NormalJudge(new ReferenceTable("by-hand", List.of(), List.of(loss)), NormalRules.USUAL);
    AgeSlope inside = judge.ageing(Groups.quadrant("superior"), Groups.eye(59.9, 24));
    AgeSlope outside = judge.ageing(Groups.quadrant("superior"), Groups.eye(60, 24));

    assertEquals(OptionalDouble.of(-0.488), inside.umPerYear());
    assertTrue(outside.umPerYear().isEmpty());
    assertTrue(outside.refusal().contains("age 60 years is outside"), outside.refusal());
    assertFalse(judge.ageing(Groups.quadrant("nasal"), Groups.eye(50, 24)).refusal().isEmpty());
  }

  private static String group(NormalJudge judge, NormalEye eye) {
    return ((Placed) judge.place(93, Groups.circle(3.46), eye, NONE)).row().source().referenceId();
  }

  private static double width(Placed placed) {
    return placed.interval().upper() - placed.interval().lower();
  }

  private static Placed placed(double valueUm, NormalEye eye, ReferenceRow row) {
    return (Placed) Groups.judge(row).place(valueUm, Groups.circle(3.46), eye, NONE);
  }

  private static Reason refusal(NormalEye eye, ReferenceRow row) {
    return ((NotPlaced) Groups.judge(row).place(90, Groups.circle(3.46), eye, NONE)).reason();
  }

  private static Reason refusal(ReferencePlace place, ReferenceRow... rows) {
    return ((NotPlaced) Groups.judge(rows).place(90, place, ADULT, NONE)).reason();
  }
}
