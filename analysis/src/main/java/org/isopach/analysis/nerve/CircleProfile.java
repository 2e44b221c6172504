package org.isopach.analysis.nerve;

import java.util.Objects;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The thickness of a layer along a circle round the disc, in µm. Immutable.
 *
 * <p>Samples lie at {@code i * 360 / samples()} degrees as {@link DiscAngle} counts them, turned to
 * {@link #zero()}; temporal first, then superior, nasal, inferior, in either eye. NaN means that
 * there is no value. Vessels that lie within the layer are counted in it.
 */
public final class CircleProfile implements AngularProfile, CircleResult {
  /** The number of samples of every profile made here. */
  public static final int SAMPLES = 768;

  private static final double ROUNDING = 1e-9;

  private final ScanIdentity scan;
  private final Laterality laterality;
  private final Layer layer;
  private final double diameterMm;
  private final FundusPoint centre;
  private final ProfileSource source;
  private final AngleZero zero;
  private final double[] thicknessUm;

  /**
   * Makes a profile from a copy of its values.
   *
   * @param scan the scan measured
   * @param laterality which eye
   * @param layer the two boundaries the thickness lies between
   * @param diameterMm of the circle, mm, after any correction for axial length
   * @param centre of the circle, in the coordinates of the scan's path
   * @param source what it was read from
   * @param zero what angles are counted from
   * @param thicknessUm µm at even angles from 0 on, NaN where none; at least 4
   * @throws IllegalArgumentException when the diameter is not positive, a value is infinite, or
   *     there are too few
   */
  public CircleProfile(
      ScanIdentity scan,
      Laterality laterality,
      Layer layer,
      double diameterMm,
      FundusPoint centre,
      ProfileSource source,
      AngleZero zero,
      double[] thicknessUm) {
    this.scan = Objects.requireNonNull(scan, "scan");
    this.laterality = Objects.requireNonNull(laterality, "laterality");
    this.layer = Objects.requireNonNull(layer, "layer");
    this.centre = Objects.requireNonNull(centre, "centre");
    this.source = Objects.requireNonNull(source, "source");
    this.zero = Objects.requireNonNull(zero, "zero");
    if (!(diameterMm > 0) || Double.isInfinite(diameterMm)) {
      throw new IllegalArgumentException(
          "diameterMm must be finite and positive, was " + diameterMm);
    }
    if (thicknessUm.length < 4) {
      throw new IllegalArgumentException("a profile needs 4 samples, had " + thicknessUm.length);
    }
    for (double value : thicknessUm) {
      if (Double.isInfinite(value)) {
        throw new IllegalArgumentException("a thickness must not be infinite");
      }
    }
    this.diameterMm = diameterMm;
    this.thicknessUm = thicknessUm.clone();
  }

  /** Returns the scan measured. */
  public ScanIdentity scan() {
    return scan;
  }

  /** Returns which eye. */
  public Laterality laterality() {
    return laterality;
  }

  /** Returns the two boundaries the thickness lies between. */
  public Layer layer() {
    return layer;
  }

  /** Returns the circle's diameter in mm, after any correction for axial length. */
  public double diameterMm() {
    return diameterMm;
  }

  /** Returns the circle's centre, in the coordinates of the scan's path. */
  public FundusPoint centre() {
    return centre;
  }

  /** Returns what the profile was read from. */
  public ProfileSource source() {
    return source;
  }

  @Override
  public AngleZero zero() {
    return zero;
  }

  @Override
  public int samples() {
    return thicknessUm.length;
  }

  @Override
  public double angleDegrees(int sample) {
    Objects.checkIndex(sample, samples());
    return sample * DiscAngle.FULL_TURN / samples();
  }

  /** Returns the thickness in µm of a sample, NaN where there is none. */
  public double thicknessUm(int sample) {
    return thicknessUm[sample];
  }

  @Override
  public double valueUm(int sample) {
    return thicknessUm[sample];
  }

  /**
   * Returns the thickness in µm at any angle counted from {@link #zero()}: linear between the two
   * samples beside it, NaN where either has none.
   */
  public double atUm(double degrees) {
    double place = DiscAngle.normal(degrees) / stepDegrees();
    int below = (int) Math.floor(place + ROUNDING);
    double share = place - below;
    double first = thicknessUm[below % samples()];
    if (share <= ROUNDING) {
      return first;
    }
    return (1 - share) * first + share * thicknessUm[(below + 1) % samples()];
  }

  /**
   * Returns the same profile with its angles counted from another zero: linear between samples,
   * which smooths it a little unless the turn is a whole number of samples.
   */
  public CircleProfile rotatedTo(AngleZero other) {
    double[] turned = new double[samples()];
    double back = zero.foveaDiscDegrees() - other.foveaDiscDegrees();
    for (int i = 0; i < turned.length; i++) {
      turned[i] = atUm(angleDegrees(i) + back);
    }
    return new CircleProfile(scan, laterality, layer, diameterMm, centre, source, other, turned);
  }
}
