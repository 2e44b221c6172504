package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.isopach.analysis.stat.CannotEstimateException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class DefectFinderTest {
  private static final DefectFinder FINDER =
      new DefectFinder(ChangingCircles.NOISE.ofDifference(), ChangingCircles.SAMPLES);

  /** A wedge of 20 µm and 15 degrees is found and placed within 5 degrees. */
  @ParameterizedTest
  @ValueSource(doubles = {2, 65, 180, 290, 357})
  void findsAWedge(double centre) {
    Random random = new Random(Math.round(centre));
    double[] healthy = ChangingCircles.healthy();
    double[] sick = ChangingCircles.wedge(healthy, centre, 15, 20);
    int found = 0;
    int pairs = 200;
    double depths = 0;
    double widths = 0;
    for (int k = 0; k < pairs; k++) {
      List<ProfileDefect> defects =
          FINDER.find(
              ChangingCircles.difference(
                  ChangingCircles.scanned(healthy, random), ChangingCircles.scanned(sick, random)));
      for (ProfileDefect defect : defects) {
        if (apart(defect.centreDegrees(), centre) <= 5) {
          found++;
          depths += defect.meanDepthUm();
          widths += defect.widthDegrees();
          break;
        }
      }
    }
    assertTrue(found >= 0.95 * pairs, "found " + found + " of " + pairs);
    assertEquals(20, depths / found, 4, "depth");
    assertEquals(15, widths / found, 4, "width");
  }

  @Test
  void findsNothingIn95OfAHundredUnchangedPairs() {
    Random random = new Random(8);
    double[] healthy = ChangingCircles.healthy();
    int found = 0;
    int pairs = 2000;
    for (int k = 0; k < pairs; k++) {
      double[] change =
          ChangingCircles.difference(
              ChangingCircles.scanned(healthy, random), ChangingCircles.scanned(healthy, random));
      found += FINDER.find(change).isEmpty() ? 0 : 1;
    }
    assertTrue(found <= 0.06 * pairs, "found " + found + " of " + pairs);
    assertTrue(found >= 0.01 * pairs, "so few that the limit is far too wide: " + found);
  }

  @Test
  void measuresAWedgeWithoutNoiseThatPassesZero() {
    double[] flat = new double[ChangingCircles.SAMPLES];
    List<ProfileDefect> defects = FINDER.find(ChangingCircles.wedge(flat, 2, 30, 25));

    assertEquals(1, defects.size());
    ProfileDefect defect = defects.get(0);
    assertEquals(2, defect.centreDegrees(), 0.5);
    assertTrue(defect.fromDegrees() > 340 && defect.toDegrees() < 20, defect.toString());
    assertEquals(25, defect.maxDepthUm(), 1e-9);
    // The running mean reaches 2.5 degrees to either side; what it loses there in depth is in
    // width.
    assertEquals(30, defect.widthDegrees(), 3);
    assertEquals(25 * 30, defect.areaUmDegrees(), 25);
    assertEquals(defect.areaUmDegrees() * Math.PI / 180 * 1.73, defect.areaUmMm(1.73), 1e-9);
    assertTrue(defect.p() < 0.001, "p " + defect.p());
    assertTrue(
        defect.words().startsWith("locally thinner beyond noise around 2 degrees"), defect.words());
  }

  /** A change all round is the global mean's to tell; a wedge within one is found all the same. */
  @Test
  void tellsALocalLossFromOneAllRound() {
    double[] all = new double[ChangingCircles.SAMPLES];
    Arrays.fill(all, -30);

    assertTrue(FINDER.find(all).isEmpty());
    ProfileDefect defect = FINDER.find(ChangingCircles.wedge(all, 290, 20, 25)).get(0);
    assertEquals(290, defect.centreDegrees(), 0.5);
    assertEquals(25, defect.maxDepthUm(), 1e-9);
  }

  @Test
  void passesOverVesselsWithoutValuesAndDoesNotGuessInLargeGaps() {
    double[] cut = ChangingCircles.wedge(new double[ChangingCircles.SAMPLES], 100, 20, 25);
    double[] vessel = cut.clone();
    // 1.9 degrees of the wedge.
    Arrays.fill(vessel, 212, 216, Double.NaN);
    double[] lost = cut.clone();
    Arrays.fill(lost, 185, 242, Double.NaN);

    assertEquals(1, FINDER.find(vessel).size());
    assertEquals(100, FINDER.find(vessel).get(0).centreDegrees(), 1);
    assertEquals(25, FINDER.find(vessel).get(0).maxDepthUm(), 1e-9);
    assertTrue(FINDER.find(lost).isEmpty());
    double[] nothing = new double[ChangingCircles.SAMPLES];
    Arrays.fill(nothing, Double.NaN);
    assertThrows(CannotEstimateException.class, () -> FINDER.find(nothing));
    assertThrows(IllegalArgumentException.class, () -> FINDER.find(new double[360]));
  }

  @Test
  void findsTwoWedgesApart() {
    double[] two =
        ChangingCircles.wedge(
            ChangingCircles.wedge(new double[ChangingCircles.SAMPLES], 60, 20, 20), 300, 20, 25);
    List<ProfileDefect> defects = FINDER.find(two);

    assertEquals(2, defects.size());
    assertEquals(60, defects.get(0).centreDegrees(), 0.5);
    assertEquals(300, defects.get(1).centreDegrees(), 0.5);
    assertTrue(defects.get(1).maxDepthUm() > defects.get(0).maxDepthUm());
  }

  /**
   * Two visits are √2 times as noisy as one profile: a wedge just beyond one is within the other.
   */
  @ParameterizedTest
  @CsvSource({"13,false", "17,true"})
  void asksForADepthBeyondNoise(double depth, boolean found) {
    double[] cut = ChangingCircles.wedge(new double[ChangingCircles.SAMPLES], 200, 20, depth);

    assertEquals(found, !FINDER.find(cut).isEmpty(), "threshold " + FINDER.thresholdSd());
  }

  @Test
  void givesTheSameEveryTime() {
    DefectFinder again =
        new DefectFinder(ChangingCircles.NOISE.ofDifference(), ChangingCircles.SAMPLES);

    assertEquals(FINDER.thresholdSd(), again.thresholdSd());
    // Quantiles of the least of n independent normal values, 1 - 0.95^(1/n): n = 48 windows side by
    // side 3.07; as many as there are samples 3.82. Overlapping windows lie between.
    assertTrue(FINDER.thresholdSd() > 3.07 && FINDER.thresholdSd() < 3.82);
  }

  private static double apart(double first, double second) {
    double difference = Math.abs(first - second) % 360;
    return Math.min(difference, 360 - difference);
  }
}
