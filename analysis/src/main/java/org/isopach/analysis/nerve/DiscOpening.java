package org.isopach.analysis.nerve;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * The opening of Bruch's membrane at the optic disc, as a closed contour seen from its centre.
 * Immutable.
 *
 * <p>Samples lie at {@code i * 360 / samples()} degrees as {@link DiscAngle} counts them from the
 * horizontal. All are finite; where the membrane's end was not seen the sample is interpolated and
 * {@link #seen} is false.
 */
public final class DiscOpening {
  /** The number of samples of every opening found here. */
  public static final int SAMPLES = 72;

  private final Laterality laterality;
  private final OpeningContour contour;
  private final double[] radiusMm;
  private final double[] heightUm;
  private final boolean[] seen;
  private final RimPlane plane;

  private DiscOpening(
      Laterality laterality,
      OpeningContour contour,
      double[] radiusMm,
      double[] heightUm,
      boolean[] seen,
      RimPlane plane) {
    this.laterality = laterality;
    this.contour = contour;
    this.radiusMm = radiusMm;
    this.heightUm = heightUm;
    this.seen = seen;
    this.plane = plane;
  }

  /**
   * Returns the opening of radial samples round any point inside it. Area and centroid are those of
   * the polygon through the samples; radii, heights and what was seen are then counted anew round
   * the centroid, linear between two of the polygon's corners, a sample being seen when the nearer
   * of them was.
   *
   * @param about the point that radii are counted from, in the coordinates of the scan's path
   * @param laterality which eye
   * @param radiusMm mm at even angles from 0 (temporal) on; positive and finite; an even number, at
   *     least 12
   * @param heightUm of the membrane's end, µm, positive towards the vitreous, finite
   * @param seen whether the end was seen there; at least three must be, not all on one line
   * @throws IllegalArgumentException when lengths or values do not fit, or when the centroid does
   *     not see the whole contour
   */
  public static DiscOpening of(
      FundusPoint about,
      Laterality laterality,
      double[] radiusMm,
      double[] heightUm,
      boolean[] seen) {
    requireSamples(radiusMm, heightUm, seen);
    OpeningContour contour = OpeningContour.of(about, laterality, radiusMm);
    double[] radii = new double[radiusMm.length];
    double[] heights = new double[radiusMm.length];
    boolean[] marks = new boolean[radiusMm.length];
    for (int i = 0; i < radii.length; i++) {
      OpeningContour.Crossing crossing = contour.crossing(i * DiscAngle.FULL_TURN / radii.length);
      int next = (crossing.corner() + 1) % radii.length;
      double share = crossing.share();
      radii[i] = crossing.radiusMm();
      heights[i] = (1 - share) * heightUm[crossing.corner()] + share * heightUm[next];
      marks[i] = seen[share < 0.5 ? crossing.corner() : next];
    }
    RimPlane plane = RimPlane.through(contour, heightUm, seen);
    return new DiscOpening(laterality, contour, radii, heights, marks, plane);
  }

  /**
   * Returns this opening with every length on the fundus multiplied, the origin kept in place;
   * heights stay. So it follows {@link org.isopach.analysis.geometry.ScanPath#scaledBy}.
   *
   * @param factor finite and positive
   */
  public DiscOpening scaledBy(double factor) {
    if (!(factor > 0) || Double.isInfinite(factor)) {
      throw new IllegalArgumentException("factor must be finite and positive, was " + factor);
    }
    double[] radii = Arrays.stream(radiusMm).map(mm -> factor * mm).toArray();
    RimPlane stretched = plane.overLengths(factor);
    return new DiscOpening(laterality, contour.scaledBy(factor), radii, heightUm, seen, stretched);
  }

  private static void requireSamples(double[] radiusMm, double[] heightUm, boolean[] seen) {
    int n = radiusMm.length;
    if (n < 12 || n % 2 != 0 || heightUm.length != n || seen.length != n) {
      throw new IllegalArgumentException(
          "an even number of at least 12 samples is needed, had "
              + n
              + ", "
              + heightUm.length
              + " and "
              + seen.length);
    }
    for (int i = 0; i < n; i++) {
      if (!(radiusMm[i] > 0) || Double.isInfinite(radiusMm[i]) || !Double.isFinite(heightUm[i])) {
        throw new IllegalArgumentException(
            "sample " + i + " has radius " + radiusMm[i] + " and height " + heightUm[i]);
      }
    }
  }

  /** Returns the centroid of the opening's area, in the coordinates of the scan's path. */
  public FundusPoint centre() {
    return contour.centroid();
  }

  /** Returns which eye. */
  public Laterality laterality() {
    return laterality;
  }

  /** Returns the number of samples. */
  public int samples() {
    return radiusMm.length;
  }

  /** Returns the angle of a sample in degrees, counted from the horizontal. */
  public double angleDegrees(int sample) {
    Objects.checkIndex(sample, samples());
    return sample * DiscAngle.FULL_TURN / samples();
  }

  /** Returns the distance in mm from the centre to the membrane's end. */
  public double radiusMm(int sample) {
    return radiusMm[sample];
  }

  /** Returns the height in µm of the membrane's end, positive towards the vitreous. */
  public double heightUm(int sample) {
    return heightUm[sample];
  }

  /** Returns whether the membrane's end was seen there; otherwise it is interpolated. */
  public boolean seen(int sample) {
    return seen[sample];
  }

  /** Returns the place of the membrane's end, in the coordinates of the scan's path. */
  public FundusPoint point(int sample) {
    return DiscAngle.place(centre(), radiusMm[sample], angleDegrees(sample), laterality);
  }

  /** Returns the share of samples that were seen, from 0 to 1. */
  public double seenFraction() {
    int found = 0;
    for (boolean mark : seen) {
      found += mark ? 1 : 0;
    }
    return (double) found / seen.length;
  }

  /** Returns the area in mm² of the polygon through the samples that the opening was made of. */
  public double areaMm2() {
    return contour.areaMm2();
  }

  /** Returns the corners of that polygon in order, in the coordinates of the scan's path. */
  public List<FundusPoint> corners() {
    return contour.corners();
  }

  /** Returns the longest straight line through the centre, from end to end, in mm. */
  public double longestMm() {
    double longest = 0;
    for (int i = 0; i < samples() / 2; i++) {
      longest = Math.max(longest, radiusMm[i] + radiusMm[i + samples() / 2]);
    }
    return longest;
  }

  /** Returns the shortest straight line through the centre, from end to end, in mm. */
  public double shortestMm() {
    double shortest = Double.POSITIVE_INFINITY;
    for (int i = 0; i < samples() / 2; i++) {
      shortest = Math.min(shortest, radiusMm[i] + radiusMm[i + samples() / 2]);
    }
    return shortest;
  }

  /**
   * Returns the angle in degrees, from 0 to below 90, between the plane that fits the seen ends
   * best and the plane across the A-scans.
   */
  public double tiltDegrees() {
    return plane.tiltDegrees();
  }

  /**
   * Returns the direction in which that plane falls away from the vitreous, as {@link DiscAngle}
   * counts; 0 without a tilt.
   */
  public double tiltTowardsDegrees() {
    return plane.towardsDegrees();
  }

  /** Returns whether a place lies inside the polygon that the opening was made of. */
  public boolean contains(FundusPoint point) {
    return contour.contains(point);
  }
}
