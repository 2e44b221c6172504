package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Objects;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

class RegionScorerTest {
  private static final ScanPlan DENSE = ScanPlan.raster(new ScanSize(49, 128, 496), 3.87, 6, 6, 0);

  private static PhantomScan fluid() {
    PhantomParameters drawn = Condition.SUBRETINAL_FLUID.parameters(7);
    return PhantomScan.of(drawn, DENSE);
  }

  private static RegionScore score(PhantomScan phantom, RegionLabels labels) {
    Map<RegionKind, RegionScore> scores = RegionScorer.of(phantom, labels);
    return Objects.requireNonNull(scores.get(RegionKind.SUBRETINAL_FLUID));
  }

  @Test
  void theTruthAgreesWithItself() {
    PhantomScan phantom = fluid();
    RegionScore score = score(phantom, TrueLabels.of(phantom));
    assertEquals(1, score.overlap().dice());
    assertEquals(score.trueNl(), score.foundNl());
    assertTrue(score.judged());
    assertTrue(score.volumeNear());
  }

  /** Voxels of dense frames hold about what the anatomy holds: 2 % for the way between frames. */
  @Test
  void voxelsAddUpToTheAnatomy() {
    PhantomScan phantom = fluid();
    RegionScore score = score(phantom, TrueLabels.of(phantom));
    assertEquals(1, score.foundInCircleNl() / score.anatomyNl(), 0.03);
  }

  @Test
  void nothingFoundIsADiceOfZero() {
    PhantomScan phantom = fluid();
    RegionScore score = score(phantom, RegionLabels.none(phantom.truth().size()));
    assertEquals(0, score.overlap().dice());
    assertEquals(0, score.foundNl());
    assertFalse(score.volumeNear());
  }

  @Test
  void nearIsTenPercentOrTwoNanolitres() {
    assertTrue(RegionScore.near(108, 100));
    assertFalse(RegionScore.near(111, 100));
    assertTrue(RegionScore.near(8, 6.5));
    assertFalse(RegionScore.near(8.6, 6.5));
  }
}
