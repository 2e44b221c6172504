package org.isopach.analysis.nerve;

import java.util.Arrays;

/**
 * Measures the minimum rim width: from each end of Bruch's membrane the least distance to the inner
 * limiting membrane within the radial plane, as docs/measurements.md, "Optic nerve opening and rim"
 * defines it.
 *
 * <p>Source: Reis et al., Ophthalmology 2012;119:738; Chauhan et al., Ophthalmology 2013;120:535;
 * from memory.
 */
public final class RimMeter {
  /** How far outside the opening the inner surface is looked at, mm; ours. */
  public static final double REACH_MM = 1.0;

  /** The widest angle between seen ends over which interpolated ones are measured; ours. */
  public static final double WIDEST_GAP_DEGREES = 30;

  private static final double STEP_MM = 0.005;
  private static final double ROUNDING = 1e-9;

  private final DiscOpening opening;
  private final HeightMap surface;

  private RimMeter(DiscOpening opening, HeightMap surface) {
    this.opening = opening;
    this.surface = surface;
  }

  /**
   * Returns the rim's widths round an opening, angles counted from the horizontal.
   *
   * @param opening in the coordinates of the scan's path
   * @param surface heights of the inner limiting membrane, in the same coordinates and from the
   *     same zero as the opening's
   */
  public static RimProfile measure(DiscOpening opening, HeightMap surface) {
    RimMeter meter = new RimMeter(opening, surface);
    double[] width = new double[opening.samples()];
    double[] nearest = new double[opening.samples()];
    Arrays.fill(width, Double.NaN);
    Arrays.fill(nearest, Double.NaN);
    for (int i = 0; i < width.length; i++) {
      if (meter.endIsKnown(i)) {
        RimSearch found = meter.search(i);
        if (found.certain()) {
          width[i] = found.leastUm();
          nearest[i] = found.nearestMm();
        }
      }
    }
    return new RimProfile(opening, AngleZero.HORIZONTAL, width, nearest);
  }

  /** Returns whether an end was seen or lies between seen ends that are not too far apart. */
  private boolean endIsKnown(int sample) {
    return opening.seen(sample)
        || (stepsToSeen(sample, 1) + stepsToSeen(sample, -1))
                * (DiscAngle.FULL_TURN / opening.samples())
            <= WIDEST_GAP_DEGREES + ROUNDING;
  }

  private int stepsToSeen(int sample, int way) {
    int steps = 0;
    while (steps < opening.samples()
        && !opening.seen(Math.floorMod(sample + way * steps, opening.samples()))) {
      steps++;
    }
    return steps;
  }

  private RimSearch search(int sample) {
    double radius = opening.radiusMm(sample);
    double degrees = opening.angleDegrees(sample);
    int steps = (int) Math.ceil((radius + REACH_MM) / STEP_MM);
    double[] mm = new double[steps + 1];
    double[] um = new double[steps + 1];
    for (int k = 0; k <= steps; k++) {
      mm[k] = (radius + REACH_MM) * k / steps;
      um[k] = surface.atUm(DiscAngle.place(opening.centre(), mm[k], degrees, opening.laterality()));
    }
    return RimSearch.from(radius, opening.heightUm(sample), mm, um);
  }
}
