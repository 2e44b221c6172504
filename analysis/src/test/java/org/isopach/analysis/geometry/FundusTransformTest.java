package org.isopach.analysis.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Closed forms of plane similarities; the picture has x right and y down. */
class FundusTransformTest {
  private static final FundusPoint ORIGIN = new FundusPoint(0, 0);

  @ParameterizedTest
  @CsvSource({
    "90, 1, 0, 0, 1",
    "90, 0, 1, -1, 0",
    "-90, 1, 0, 0, -1",
    "180, 1, 2, -1, -2",
    "30, 2, 0, 1.7320508075688772, 1",
    "45, 0, 1, -0.7071067811865476, 0.7071067811865476",
  })
  void turnsClockwiseOnThePicture(double degrees, double x, double y, double toX, double toY) {
    FundusTransform turn = FundusTransform.of(1, degrees, ORIGIN, ORIGIN);

    assertNear(new FundusPoint(toX, toY), turn.apply(new FundusPoint(x, y)), 1e-15);
  }

  @Test
  void scalesAndTurnsAboutAPointThenMoves() {
    FundusPoint about = new FundusPoint(4, 3);
    FundusTransform all = FundusTransform.of(1.5, 90, about, new FundusPoint(0.2, -0.1));

    assertNear(new FundusPoint(4.2, 2.9), all.apply(about), 1e-14);
    assertNear(new FundusPoint(4.2, 5.9), all.apply(new FundusPoint(6, 3)), 1e-14);
    assertEquals(1.5, all.scale(), 1e-15);
    assertEquals(90, all.rotationDegrees(), 1e-13);
  }

  @Test
  void tellsTheFiguresItWasMadeOf() {
    FundusPoint shift = new FundusPoint(-0.7, 1.25);
    FundusTransform made = FundusTransform.of(0.95, -7.5, ORIGIN, shift);

    assertEquals(0.95, made.scale(), 1e-15);
    assertEquals(-7.5, made.rotationDegrees(), 1e-13);
    assertEquals(shift, made.translation());
    assertEquals(made, FundusTransform.ofMatrix(made.a(), made.b(), made.translation()));
  }

  @Test
  void isUndoneByItsInverse() {
    Random random = new Random(11);
    for (int i = 0; i < 100; i++) {
      FundusTransform one = any(random);
      FundusPoint point = point(random);

      assertNear(point, one.inverse().apply(one.apply(point)), 1e-13);
      assertNear(point, one.then(one.inverse()).apply(point), 1e-13);
    }
  }

  @Test
  void chainsInTheOrderWritten() {
    Random random = new Random(12);
    for (int i = 0; i < 100; i++) {
      FundusTransform first = any(random);
      FundusTransform next = any(random);
      FundusPoint point = point(random);

      assertNear(next.apply(first.apply(point)), first.then(next).apply(point), 1e-13);
      assertEquals(first.scale() * next.scale(), first.then(next).scale(), 1e-14);
    }
  }

  @Test
  void holdsBetweenLengthsCorrectedForTwoEyes() {
    FundusTransform stated = FundusTransform.of(1.02, 3, new FundusPoint(3, 3), ORIGIN);
    FundusPoint point = new FundusPoint(1, 2);
    FundusPoint expected = stated.apply(point);

    FundusPoint corrected =
        stated.withLengths(1.1, 0.9).apply(new FundusPoint(1.1 * point.xMm(), 1.1 * point.yMm()));

    assertNear(new FundusPoint(0.9 * expected.xMm(), 0.9 * expected.yMm()), corrected, 1e-14);
  }

  @Test
  void isTheSameInAMirrorToTheLastBit() {
    Random random = new Random(13);
    for (int i = 0; i < 100; i++) {
      FundusTransform one = any(random);
      FundusPoint point = point(random);
      FundusPoint seen = one.apply(point);

      assertEquals(
          new FundusPoint(-seen.xMm(), seen.yMm()),
          one.mirrored().apply(new FundusPoint(-point.xMm(), point.yMm())));
    }
  }

  @Test
  void movesAndKeeps() {
    assertEquals(
        new FundusPoint(3, 1),
        FundusTransform.translation(new FundusPoint(2, -1)).apply(new FundusPoint(1, 2)));
    assertEquals(
        new FundusPoint(1, 2), FundusTransform.IDENTITY.inverse().apply(new FundusPoint(1, 2)));
  }

  @Test
  void refusesWhatIsNoSimilarity() {
    assertThrows(IllegalArgumentException.class, () -> FundusTransform.of(0, 0, ORIGIN, ORIGIN));
    assertThrows(IllegalArgumentException.class, () -> FundusTransform.of(-1, 0, ORIGIN, ORIGIN));
    assertThrows(
        IllegalArgumentException.class, () -> FundusTransform.of(1, Double.NaN, ORIGIN, ORIGIN));
    assertThrows(
        IllegalArgumentException.class,
        () -> FundusTransform.of(Double.POSITIVE_INFINITY, 0, ORIGIN, ORIGIN));
    assertThrows(
        IllegalArgumentException.class,
        () -> FundusTransform.ofMatrix(1, 0, new FundusPoint(Double.NaN, 0)));
  }

  private static FundusTransform any(Random random) {
    return FundusTransform.of(
        0.8 + 0.4 * random.nextDouble(),
        360 * random.nextDouble() - 180,
        point(random),
        point(random));
  }

  private static FundusPoint point(Random random) {
    return new FundusPoint(10 * random.nextDouble() - 5, 10 * random.nextDouble() - 5);
  }

  private static void assertNear(FundusPoint expected, FundusPoint actual, double mm) {
    assertEquals(expected.xMm(), actual.xMm(), mm);
    assertEquals(expected.yMm(), actual.yMm(), mm);
  }
}
