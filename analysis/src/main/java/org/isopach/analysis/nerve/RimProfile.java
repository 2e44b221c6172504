package org.isopach.analysis.nerve;

import java.util.Objects;

/**
 * The least width of the rim at each sample of an opening, in µm. Immutable.
 *
 * <p>NaN means that there is none: no inner surface, one that may be nearer where it was not found,
 * or an end of the membrane that was neither seen nor between seen ones near by.
 */
public final class RimProfile implements AngularProfile {
  private final DiscOpening opening;
  private final AngleZero zero;
  private final double[] widthUm;
  private final double[] nearestMm;

  RimProfile(DiscOpening opening, AngleZero zero, double[] widthUm, double[] nearestMm) {
    this.opening = Objects.requireNonNull(opening, "opening");
    this.zero = Objects.requireNonNull(zero, "zero");
    this.widthUm = widthUm.clone();
    this.nearestMm = nearestMm.clone();
  }

  /** Returns the opening that widths start from. */
  public DiscOpening opening() {
    return opening;
  }

  @Override
  public AngleZero zero() {
    return zero;
  }

  @Override
  public int samples() {
    return widthUm.length;
  }

  /** Returns the angle of a sample of the opening, turned to {@link #zero()}. */
  @Override
  public double angleDegrees(int sample) {
    return zero.ofHorizontal(opening.angleDegrees(sample));
  }

  /** Returns the width in µm, NaN where there is none. */
  public double widthUm(int sample) {
    return widthUm[sample];
  }

  @Override
  public double valueUm(int sample) {
    return widthUm[sample];
  }

  /** Returns how far from the opening's centre the nearest inner surface lies, mm; NaN as above. */
  public double nearestMm(int sample) {
    return nearestMm[sample];
  }

  /** Returns the same widths with their angles counted from another zero; nothing is resampled. */
  public RimProfile countedFrom(AngleZero other) {
    return new RimProfile(opening, other, widthUm, nearestMm);
  }
}
