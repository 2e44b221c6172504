package org.isopach.cli.accuracy.nerve;

import java.util.SplittableRandom;
import java.util.function.UnaryOperator;
import org.isopach.fixtures.phantom.NerveHead;
import org.isopach.fixtures.phantom.PhantomParameters;

/**
 * Circle scans of one phantom eye at several visits. Speckle, movements and pictures are new at
 * every visit; how well a scan is laid on the first one depends on its aim (figures ours).
 */
final class NerveVisits {
  private static final double AIM_MM = 0.1;
  private static final double TRACKING_MM = 0.02;
  private static final int MOST_VISITS = 100;

  private NerveVisits() {}

  /**
   * Returns one visit.
   *
   * @param seed of the eye
   * @param visit number of the visit, 0 for the first
   * @param aim how it is laid
   * @param change what became of the nerve head
   */
  static PhantomParameters of(long seed, int visit, Aim aim, UnaryOperator<NerveHead> change) {
    PhantomParameters eye = PhantomParameters.drawNerve(seed);
    PhantomParameters scan =
        eye.rescanned(seed * MOST_VISITS + visit)
            .withNerveHead(change.apply(eye.nerve().orElseThrow()));
    double[] first = shift(seed, 0);
    double[] now = shift(seed, visit);
    if (aim == Aim.FREE) {
      return scan.onDisc(AIM_MM * now[0], AIM_MM * now[1]);
    }
    double share = visit == 0 ? 0 : TRACKING_MM;
    return scan.withPlacement(eye.placement())
        .onDisc(AIM_MM * first[0] + share * now[0], AIM_MM * first[1] + share * now[1]);
  }

  private static double[] shift(long seed, int visit) {
    SplittableRandom random = new SplittableRandom(31 * (seed * MOST_VISITS + visit) + 7);
    return new double[] {random.nextGaussian(), random.nextGaussian()};
  }
}
