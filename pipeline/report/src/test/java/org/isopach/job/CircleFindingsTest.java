package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.ProfileSource;
import org.isopach.analysis.scan.ScanIdentity;
import org.junit.jupiter.api.Test;

/** Where a circle lies against the opening that a volume of the same visit shows. */
class CircleFindingsTest {
  private static final FundusPoint DISC = new FundusPoint(4.5, 1.0);

  @Test
  void circleRoundTheDiscNeedsNoWord() {
    assertEquals(List.of(), kinds(circle(0.05, 3.46, ProfileSource.CIRCLE_SCAN)));
  }

  @Test
  void circleLaidIntoAVolumeIsWhereItWasLaid() {
    assertEquals(List.of(), kinds(circle(0.20, 3.46, ProfileSource.RESAMPLED)));
  }

  @Test
  void smallShiftIsSaidWithItsSize() {
    List<Finding> findings = findings(circle(0.20, 3.46, ProfileSource.CIRCLE_SCAN));
    assertEquals(
        List.of(FindingKind.CIRCLE_SHIFTED), findings.stream().map(Finding::kind).toList());
    assertTrue(findings.get(0).detail().contains("0.20 mm"), findings.get(0).detail());
    assertEquals("subject", findings.get(0).subject());
  }

  @Test
  void largeShiftIsOffTheDisc() {
    assertEquals(
        List.of(FindingKind.CIRCLE_OFF_DISC), kinds(circle(0.40, 3.46, ProfileSource.CIRCLE_SCAN)));
  }

  @Test
  void circleThatCutsTheOpeningIsOffTheDiscAndUnusual() {
    assertEquals(
        List.of(FindingKind.CIRCLE_OFF_DISC, FindingKind.DIAMETER_UNUSUAL),
        kinds(circle(0.0, 1.5, ProfileSource.CIRCLE_SCAN)));
  }

  @Test
  void withoutAnOpeningAShiftCannotBeToldAndThatIsSaid() {
    List<Finding> findings =
        CircleFindings.of(circle(0.40, 3.46, ProfileSource.CIRCLE_SCAN), alone(), "subject");
    assertEquals(
        List.of(FindingKind.CIRCLE_NOT_CHECKED), findings.stream().map(Finding::kind).toList());
    assertTrue(findings.get(0).detail().contains("was not checked"), findings.get(0).detail());
    assertEquals(Optional.empty(), CircleFindings.barred(findings, alone()));
    assertEquals(findings, CircleFindings.ofCentring(findings).toList());
  }

  @Test
  void circleLaidIntoAVolumeNeedsNoCheck() {
    assertEquals(
        List.of(),
        CircleFindings.of(circle(0.40, 3.46, ProfileSource.RESAMPLED), alone(), "subject"));
  }

  @Test
  void anotherCircleCloseByProvesNothing() {
    assertEquals(List.of(FindingKind.CIRCLE_NOT_CHECKED), apart(0.20));
  }

  @Test
  void ofTwoCirclesApartOneIsShifted() {
    assertEquals(List.of(FindingKind.CIRCLES_APART), apart(0.40));
  }

  @Test
  void ofTwoCirclesFarApartNeitherHasAPlace() {
    CircleSight circle = circle(0, 3.46, ProfileSource.CIRCLE_SCAN);
    List<Finding> near = CircleFindings.of(circle, beside(0.59), "subject");
    List<Finding> far = CircleFindings.of(circle, beside(0.61), "subject");

    assertEquals(Optional.empty(), CircleFindings.barred(near, beside(0.59)));
    assertTrue(CircleFindings.barred(far, beside(0.61)).isPresent());
    assertTrue(far.get(0).detail().contains("0.61 mm away"), far.get(0).detail());
  }

  private static List<FindingKind> apart(double mm) {
    return CircleFindings.of(circle(0, 3.46, ProfileSource.CIRCLE_SCAN), beside(mm), "subject")
        .stream()
        .map(Finding::kind)
        .toList();
  }

  private static CircleWitness alone() {
    return new CircleWitness(Optional.empty(), OptionalDouble.empty());
  }

  private static CircleWitness beside(double mm) {
    return new CircleWitness(Optional.empty(), OptionalDouble.of(mm));
  }

  private static List<FindingKind> kinds(CircleSight circle) {
    return findings(circle).stream().map(Finding::kind).toList();
  }

  private static List<Finding> findings(CircleSight circle) {
    return CircleFindings.of(
        circle, new CircleWitness(Optional.of(opening()), OptionalDouble.empty()), "subject");
  }

  private static CircleSight circle(double shiftMm, double diameterMm, ProfileSource source) {
    double[] values = new double[CircleProfile.SAMPLES];
    Arrays.fill(values, 95);
    CircleProfile profile =
        new CircleProfile(
            new ScanIdentity("TSEU-1", "2.25.1", "2.25.2", "2.25.3", Optional.empty()),
            Laterality.RIGHT,
            CircleSight.FIBRES,
            diameterMm,
            DISC.plus(new FundusPoint(shiftMm, 0)),
            source,
            AngleZero.HORIZONTAL,
            values);
    return new CircleSight(profile, Collections.nCopies(values.length, 0.9), List.of(), List.of());
  }

  /** A round opening of 0.8 mm radius. */
  private static DiscOpening opening() {
    double[] radii = new double[DiscOpening.SAMPLES];
    boolean[] seen = new boolean[radii.length];
    Arrays.fill(radii, 0.8);
    Arrays.fill(seen, true);
    return DiscOpening.of(DISC, Laterality.RIGHT, radii, new double[radii.length], seen);
  }
}
