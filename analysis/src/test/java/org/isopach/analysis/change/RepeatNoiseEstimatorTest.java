package org.isopach.analysis.change;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;

class RepeatNoiseEstimatorTest {
  /** Peak flow of 17 subjects, large meter, twice: Bland and Altman, Lancet 1986;i:307. */
  private static final double[][] PEAK_FLOW = {
    {494, 490}, {395, 397}, {516, 512}, {434, 401}, {476, 470}, {557, 611}, {413, 415}, {442, 431},
    {650, 638}, {433, 429}, {417, 420}, {656, 633}, {267, 275}, {478, 492}, {178, 165}, {423, 372},
    {427, 421}
  };

  private RepeatNoiseEstimator estimator(int leastPairs) {
    return new RepeatNoiseEstimator(
        Layer.ILM_BM, NoiseSource.GIVEN_REPEATS, leastPairs, Pairs.TABULATOR);
  }

  @Test
  void findsTheWithinSubjectSdOfThePublishedExample() {
    RepeatNoiseEstimator estimator = estimator(3);
    for (double[] twice : PEAK_FLOW) {
      estimator.add(Pairs.of(Laterality.RIGHT, (x, y) -> twice[0], (x, y) -> twice[1], 0));
    }

    SectorNoise noise = estimator.finish().sector("outer-inferior").orElseThrow();

    // 15.3 L/min in the paper; digits reckoned from its data.
    assertEquals(15.306669, noise.sdUm(), 1e-5);
    assertEquals(17, noise.degreesOfFreedom());
    assertEquals("17 pairs of repeats given", noise.reference());
  }

  @Test
  void saysHowManyPairsAreWanting() {
    RepeatNoiseEstimator estimator = estimator(3);
    estimator.add(Pairs.of(Laterality.RIGHT, (x, y) -> 300, (x, y) -> 301, 0));

    RepeatNoise noise = estimator.finish();

    assertTrue(noise.sector("centre").isEmpty());
    assertTrue(noise.points().isEmpty());
    assertEquals("1 pair of repeats given, 3 are needed", noise.gap());
  }

  @Test
  void findsSpreadTailsAndReachOfSmoothedNoise() {
    RepeatNoiseEstimator estimator = estimator(1);
    for (int i = 0; i < 30; i++) {
      SplittableRandom random = new SplittableRandom(100 + i);
      Surface first = (x, y) -> 300 + 8 * random.nextGaussian();
      estimator.add(Pairs.of(Laterality.LEFT, first, first, 0));
    }

    PointNoise points = estimator.finish().points().orElseThrow();

    // White noise of SD 8 µm in cells of 0.05 mm under a Gaussian of 0.12 mm: 8 × 0.05 / (2 √π
    // 0.12).
    assertEquals(0.627, points.spots().get("outer-nasal").sdUm(), 0.07);
    assertEquals(0.627, points.spots().get("inner-temporal").sdUm(), 0.13);
    // Its correlation is a Gaussian of √2 × 0.18 mm, which falls to 1/e at 0.36 mm.
    assertEquals(0.36, points.correlationLengthMm(), 0.02);
    assertTrue(
        points.tailDegrees() > 15, "normal noise has no tails, were " + points.tailDegrees());
    assertEquals(0.4239, points.resolutionMm(), 1e-4);
  }

  @Test
  void repeatsCarryTheirOwnErrorOfPlace() {
    RepeatNoiseEstimator estimator = estimator(1);
    Surface plane = (x, y) -> 300 + 30 * x;
    estimator.add(Pairs.of(Laterality.RIGHT, plane, (x, y) -> 303 + 30 * x, 0.1));
    RepeatNoise noise = estimator.finish();

    ChangeUncertainty.Given given =
        Pairs.given(
            new ChangeJudge(Pairs.TABULATOR)
                .judge(Pairs.of(Laterality.RIGHT, plane, plane, 0.1), noise)
                .table(),
            "centre");

    assertEquals(9, noise.sector("centre").orElseThrow().placeVarianceUm2(), 1e-3);
    assertEquals(9, given.terms().repeats(), 1e-3);
    assertEquals(0, given.terms().place(), 1e-3, "it is in the repeats already");
  }
}
