package org.isopach.analysis.nerve;

/**
 * Values at even angles once round a centre. Each sample stands for the angle half way to either
 * neighbour.
 */
public interface AngularProfile {
  /** Returns the number of samples, a full turn. */
  int samples();

  /** Returns the angle of a sample, degrees from 0 to below 360, counted from {@link #zero()}. */
  double angleDegrees(int sample);

  /** Returns the value in µm of a sample, NaN where there is none. */
  double valueUm(int sample);

  /** Returns what the angles are counted from. */
  AngleZero zero();

  /** Returns the angle that each sample stands for, in degrees. */
  default double stepDegrees() {
    return DiscAngle.FULL_TURN / samples();
  }

  /** Returns the share of samples that have a value, from 0 to 1. */
  default double coveredFraction() {
    int found = 0;
    for (int i = 0; i < samples(); i++) {
      if (!Double.isNaN(valueUm(i))) {
        found++;
      }
    }
    return (double) found / samples();
  }
}
