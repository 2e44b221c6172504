package org.isopach.cli.accuracy.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.ProfileSource;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

/** Profiles with made errors against a phantom's truth; nothing is rendered. */
class ProfileScoreTest {
  private static final PhantomScan SCAN =
      PhantomScan.of(PhantomParameters.drawNerve(5).onDisc(0, 0), ScanPlan.nerveCircle());
  private static final NerveTruth TRUTH = SCAN.truth().nerve().orElseThrow();

  private static CircleProfile profile(double[] um) {
    Laterality eye = SCAN.parameters().laterality();
    return new CircleProfile(
        SCAN.scan().identity(),
        eye,
        NerveBench.FIBRES,
        NerveTruth.CIRCLE_MM,
        TRUTH.centre(),
        ProfileSource.CIRCLE_SCAN,
        AngleZero.HORIZONTAL,
        um);
  }

  @Test
  void truthHasNoError() {
    ProfileScore score = ProfileScore.scanned(Optional.of(profile(TRUTH.profileUm())), TRUTH);
    assertEquals(0, score.meanAbsoluteUm(), 1e-4);
    assertEquals(0, score.globalUm(), 1e-4);
    score.hoursUm().forEach(hour -> assertEquals(0, hour, 1e-4));
  }

  @Test
  void errorOfOneHourIsThatHours() {
    double[] um = TRUTH.profileUm();
    // 30 degrees round 0 are hour 9, the temporal one: samples -32 to 31 of 768.
    for (int i = -32; i < 32; i++) {
      um[(i + um.length) % um.length] += 12;
    }
    ProfileScore score = ProfileScore.scanned(Optional.of(profile(um)), TRUTH);
    assertEquals(1, score.meanAbsoluteUm(), 1e-3, "12 over a twelfth");
    assertEquals(1, score.globalUm(), 0.02);
    assertEquals(12, score.hoursUm().get(0), 0.2);
    score.hoursUm().subList(1, 11).forEach(hour -> assertEquals(0, hour, 0.2));
  }

  @Test
  void missingHourIsCounted() {
    double[] um = TRUTH.profileUm();
    Arrays.fill(um, 100, 140, Double.NaN);
    ProfileScores scores =
        new ProfileScores(
            List.of(
                ProfileScore.scanned(Optional.of(profile(um)), TRUTH),
                ProfileScore.scanned(Optional.empty(), TRUTH)));
    assertEquals(1, scores.refused());
    assertEquals(2, scores.worstHours().size());
    assertTrue(Double.isNaN(scores.worstHours().get(1)));
    assertEquals((768 - 40) / 768.0, scores.coverage(), 1e-9);
  }
}
