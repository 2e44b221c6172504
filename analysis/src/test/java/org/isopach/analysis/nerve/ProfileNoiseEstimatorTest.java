package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.change.NoiseSource;
import org.junit.jupiter.api.Test;

class ProfileNoiseEstimatorTest {
  @Test
  void findsTheNoiseThatWasPutIn() {
    ProfileNoise noise = estimate(200).orElseThrow();

    assertEquals(4, noise.localSdUm(), 0.1);
    assertEquals(3, noise.correlationDegrees(), 0.2);
    // Relative error of a standard deviation on 200 degrees of freedom: 5 %.
    assertEquals(2, noise.sharedSdUm(), 0.3);
    assertEquals(NoiseSource.SAME_DAY_REPEATS, noise.source());
  }

  @Test
  void makesDoWithThreePairsAndGaps() {
    assertTrue(estimate(2).isEmpty());
    assertEquals(4, estimate(3).orElseThrow().localSdUm(), 0.6);
    List<double[]> same = List.of(new double[100], new double[100], new double[100]);
    assertTrue(ProfileNoiseEstimator.estimate(same, NoiseSource.GIVEN_REPEATS, "copies").isEmpty());
  }

  /** A repeat that was hardly measured is no repeat. */
  @Test
  void leavesPairsOutThatLackHalfOfTheCircle() {
    double[] lost = new double[100];
    Arrays.fill(lost, Double.NaN);
    double[] half = lost.clone();
    Arrays.fill(half, 0, 50, 1.0);
    double[] wave = new double[100];
    Arrays.setAll(wave, i -> Math.sin(i * Math.PI / 50));

    assertTrue(pooled(wave, wave, lost, half).isEmpty());
    assertEquals(Math.sqrt(0.25), pooled(wave, wave, wave, lost).orElseThrow().localSdUm(), 1e-12);
  }

  private static Optional<ProfileNoise> pooled(double[]... differences) {
    return ProfileNoiseEstimator.estimate(
        List.of(differences), NoiseSource.SAME_DAY_REPEATS, "by hand");
  }

  private static Optional<ProfileNoise> estimate(int pairs) {
    Random random = new Random(9);
    List<double[]> differences = new ArrayList<>();
    double[] healthy = ChangingCircles.healthy();
    for (int k = 0; k < pairs; k++) {
      double[] difference =
          ChangingCircles.difference(
              ChangingCircles.scanned(healthy, random), ChangingCircles.scanned(healthy, random));
      difference[k % 700] = Double.NaN;
      differences.add(difference);
    }
    return ProfileNoiseEstimator.estimate(
        differences, NoiseSource.SAME_DAY_REPEATS, pairs + " pairs");
  }
}
