package org.isopach.analysis.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;

/** Reads the profile of a layer along a circle, from a scan along one or from a map. */
public final class CircleSampler {
  /** The diameter of the usual circle round the disc in mm (IOVS article 2380016). */
  public static final double STANDARD_DIAMETER_MM = 3.46;

  private static final double CENTRES_APART_MM = 0.05;
  private static final double RADII_APART = 0.02;

  private CircleSampler() {}

  /**
   * Returns the profile of a scan along a circle, or why there is none.
   *
   * <p>Start and direction come of the places of the A-scans and the laterality. The frames of one
   * object are averaged at equal angles over those that have a value there.
   *
   * @param scan the scan; it must state the laterality
   * @param path where its A-scans lie, mm, corrected for axial length where that is wanted
   * @param boundaries its boundaries, of the path's shape
   * @param layer which thickness
   * @param minimumConfidence from 0 to 1; an A-scan has a thickness when both boundaries have at
   *     least this confidence
   * @param zero what the profile's angles are counted from
   * @throws IllegalArgumentException when the shapes of path and boundaries differ
   */
  public static CircleResult ofCircleScan(
      OctScan scan,
      ScanPath path,
      BoundarySet boundaries,
      Layer layer,
      double minimumConfidence,
      AngleZero zero) {
    if (boundaries.frames() != path.frames() || boundaries.ascans() != path.ascans()) {
      throw new IllegalArgumentException("path and boundaries differ in shape");
    }
    if (scan.laterality().isEmpty()) {
      return new NoCircle(
          NoCircle.Reason.NO_LATERALITY, "which eye it is decides where temporal is");
    }
    if (!boundaries.has(layer)) {
      return new NoCircle(NoCircle.Reason.LAYER_NOT_SEARCHED, layer.name() + " was not looked for");
    }
    Laterality eye = scan.laterality().get();
    List<CircleFrame> frames = new ArrayList<>();
    for (int f = 0; f < path.frames(); f++) {
      CircleFrame.Found found = CircleFrame.of(path, f, eye);
      if (found.obstacle().isPresent()) {
        return found.obstacle().get();
      }
      frames.add(found.frame().orElseThrow());
      CircleFit fit = frames.get(f).fit();
      if (!sameCircle(frames.get(0).fit(), fit)) {
        return differing(f, frames.get(0).fit(), fit);
      }
    }
    double[] values = averaged(frames, scan.axial(), boundaries, layer, minimumConfidence, zero);
    CircleFit mean = mean(frames);
    return new CircleProfile(
        scan.identity(),
        eye,
        layer,
        2 * mean.radiusMm(),
        mean.centre(),
        ProfileSource.CIRCLE_SCAN,
        zero,
        values);
  }

  /**
   * Returns the profile of a circle laid round the centre of a map.
   *
   * @param map thickness in µm, its lattice's (0, 0) the disc's centre
   * @param diameterMm of the circle, mm, finite and positive
   * @param zero what the profile's angles are counted from
   * @return samples bilinear in the four cells around each place, NaN where one has no value
   */
  public static CircleProfile ofMap(ThicknessMap map, double diameterMm, AngleZero zero) {
    LatticeSampler sampler = new LatticeSampler(map.lattice(), map::micrometres);
    FundusPoint middle = new FundusPoint(0, 0);
    double[] values = new double[CircleProfile.SAMPLES];
    for (int i = 0; i < values.length; i++) {
      double degrees = zero.toHorizontal(i * DiscAngle.FULL_TURN / values.length);
      FundusPoint at = DiscAngle.place(middle, diameterMm / 2, degrees, map.laterality());
      values[i] = sampler.at(at.xMm(), at.yMm());
    }
    return new CircleProfile(
        map.scan(),
        map.laterality(),
        map.layer(),
        diameterMm,
        map.centre().point(),
        ProfileSource.RESAMPLED,
        zero,
        values);
  }

  private static boolean sameCircle(CircleFit first, CircleFit other) {
    return first.centre().distanceMm(other.centre()) <= CENTRES_APART_MM
        && Math.abs(first.radiusMm() - other.radiusMm()) <= RADII_APART * first.radiusMm();
  }

  private static NoCircle differing(int frame, CircleFit first, CircleFit other) {
    return new NoCircle(
        NoCircle.Reason.FRAMES_DIFFER,
        String.format(
            Locale.ROOT,
            "frame %d is a circle of %.3f mm, its centre %.3f mm from that of frame 0, of %.3f mm",
            frame,
            2 * other.radiusMm(),
            first.centre().distanceMm(other.centre()),
            2 * first.radiusMm()));
  }

  private static CircleFit mean(List<CircleFrame> frames) {
    double x = 0;
    double y = 0;
    double radius = 0;
    double worst = 0;
    for (CircleFrame frame : frames) {
      x += frame.fit().centre().xMm() / frames.size();
      y += frame.fit().centre().yMm() / frames.size();
      radius += frame.fit().radiusMm() / frames.size();
      worst = Math.max(worst, frame.fit().worstMm());
    }
    return new CircleFit(new FundusPoint(x, y), radius, worst);
  }

  private static double[] averaged(
      List<CircleFrame> frames,
      AxialScale axial,
      BoundarySet boundaries,
      Layer layer,
      double minimumConfidence,
      AngleZero zero) {
    double[] sum = new double[CircleProfile.SAMPLES];
    int[] count = new int[sum.length];
    for (int f = 0; f < frames.size(); f++) {
      double[] thickness = thickness(f, axial, boundaries, layer, minimumConfidence);
      for (int i = 0; i < sum.length; i++) {
        double degrees = zero.toHorizontal(i * DiscAngle.FULL_TURN / sum.length);
        double value = frames.get(f).at(degrees, thickness);
        if (!Double.isNaN(value)) {
          sum[i] += value;
          count[i]++;
        }
      }
    }
    for (int i = 0; i < sum.length; i++) {
      sum[i] = count[i] == 0 ? Double.NaN : sum[i] / count[i];
    }
    return sum;
  }

  private static double[] thickness(
      int frame, AxialScale axial, BoundarySet boundaries, Layer layer, double minimumConfidence) {
    BoundarySurface inner = boundaries.surface(layer.inner()).orElseThrow();
    BoundarySurface outer = boundaries.surface(layer.outer()).orElseThrow();
    double[] thickness = new double[boundaries.ascans()];
    for (int a = 0; a < thickness.length; a++) {
      boolean sure =
          inner.confidence(frame, a) >= minimumConfidence
              && outer.confidence(frame, a) >= minimumConfidence;
      double pixels = (double) outer.depthPx(frame, a) - inner.depthPx(frame, a);
      thickness[a] = sure ? axial.toMicrometres(pixels) : Double.NaN;
    }
    return thickness;
  }
}
