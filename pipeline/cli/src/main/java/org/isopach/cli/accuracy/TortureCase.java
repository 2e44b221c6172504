package org.isopach.cli.accuracy;

import java.util.Objects;
import java.util.SplittableRandom;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/**
 * A scan that nobody should take: any mixture of lesions and disturbances, any signal, tilt, size
 * and pattern, few frames.
 *
 * @param seed what it was drawn from
 * @param parameters the eye and its picture
 * @param plan the pattern
 */
record TortureCase(long seed, PhantomParameters parameters, ScanPlan plan) {
  private static final int[] ASCANS = {16, 64, 100, 128, 256, 333, 512, 768, 1024};
  private static final int[] DEPTHS = {64, 160, 256, 496, 640, 885, 1024};
  private static final int MOST_FRAMES = 5;
  private static final double LEAST_DB = 0;
  private static final double MOST_DB = 45;
  private static final double MOST_SLOPE = 300;

  TortureCase {
    Objects.requireNonNull(parameters, "parameters");
    Objects.requireNonNull(plan, "plan");
  }

  static TortureCase draw(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    PhantomParameters mixed = Condition.MIXED.parameters(seed);
    PhantomParameters parameters = mixed.withSnr(between(random, LEAST_DB, MOST_DB));
    if (random.nextInt(3) == 0) {
      parameters =
          parameters.withTilt(
              between(random, -MOST_SLOPE, MOST_SLOPE), between(random, -MOST_SLOPE, MOST_SLOPE));
    }
    if (random.nextInt(4) == 0) {
      parameters = parameters.withMotion(parameters.motion().withBlinks(0.3));
    }
    return new TortureCase(seed, parameters, plan(random));
  }

  private static ScanPlan plan(SplittableRandom random) {
    ScanSize size =
        new ScanSize(
            1 + random.nextInt(MOST_FRAMES),
            ASCANS[random.nextInt(ASCANS.length)],
            DEPTHS[random.nextInt(DEPTHS.length)]);
    double axialUm = between(random, 1.9, 7);
    double lengthMm = between(random, 1, 12);
    return switch (random.nextInt(6)) {
      case 0 -> ScanPlan.radial(size, axialUm, lengthMm);
      case 1 -> ScanPlan.circle(size, axialUm, between(random, 2, 5));
      default ->
          ScanPlan.raster(
              size, axialUm, lengthMm, between(random, 0.1, 9), 90.0 * random.nextInt(4));
    };
  }

  private static double between(SplittableRandom random, double least, double most) {
    return least + (most - least) * random.nextDouble();
  }

  /** Returns the scan. */
  PhantomScan scan() {
    return PhantomScan.of(parameters, plan);
  }

  /** Returns size and pattern in words. */
  String words() {
    return plan.name()
        + ", "
        + plan.size().frames()
        + " x "
        + plan.size().ascans()
        + " x "
        + plan.size().depths();
  }
}
