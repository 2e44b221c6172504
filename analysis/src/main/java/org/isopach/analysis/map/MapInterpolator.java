package org.isopach.analysis.map;

import java.util.Objects;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;

/**
 * Turns the boundaries of a scan into a thickness map on a lattice.
 *
 * <p>Thickness is taken along each A-scan. Between A-scans {@code j, j+1} of two neighbouring
 * frames it is interpolated linearly (see {@code docs/measurements.md}); nothing is extrapolated. A
 * quadrilateral with a missing corner, or with a side longer than the rules allow, has no value. A
 * frame without any thickness counts as not scanned: its neighbours become neighbours, and the
 * longest gap decides whether the place between them has values.
 *
 * <p>Works for rasters in any orientation, spacing and frame order, and for radial frames. Safe for
 * use by several threads.
 */
public final class MapInterpolator {
  private static final double ROUNDING = 1 + 1e-9;

  private final InterpolationRules rules;

  /** Makes an interpolator that follows the given rules. */
  public MapInterpolator(InterpolationRules rules) {
    this.rules = Objects.requireNonNull(rules, "rules");
  }

  /** Returns whether frames in this figure span an area that can be mapped. */
  public static boolean canMap(ScanPath path) {
    return path.frames() > 1 && path.pattern() != ScanPattern.CIRCLE;
  }

  /**
   * Returns the map of one layer.
   *
   * @param scan whose boundaries these are; its laterality must be known
   * @param path where its A-scans lie: the scan's own path, or that path in the patient's mm
   * @param boundaries of shape {@code (frames, ascans)} of the scan, depth in pixels
   * @param layer between two of those boundaries
   * @param centre the lattice's (0, 0), in the coordinates of {@code path}
   * @param lattice cells in mm from the centre
   * @return µm at the centres of the cells; NaN outside the quadrilaterals that have values
   * @throws IllegalArgumentException when the laterality is unknown, shapes differ, a boundary of
   *     the layer is missing from the set, or the frames span no area
   */
  public ThicknessMap interpolate(
      OctScan scan,
      ScanPath path,
      BoundarySet boundaries,
      Layer layer,
      Landmark centre,
      MapLattice lattice) {
    Laterality laterality =
        scan.laterality()
            .orElseThrow(() -> new IllegalArgumentException("a map needs a known laterality"));
    check(scan, path, boundaries, layer);
    AscanThickness thickness =
        AscanThickness.of(path, scan.axial(), boundaries, layer, centre, rules.minimumConfidence());
    return new ThicknessMap(
        layer,
        laterality,
        lattice,
        centre,
        scan.identity(),
        scan.document(),
        draw(path, thickness, lattice));
  }

  /**
   * Returns values given at the A-scans, on a lattice, by the rules of thickness.
   *
   * @param path where the A-scans lie; its frames must span an area
   * @param centre the lattice's (0, 0), in the coordinates of {@code path}
   * @param values index {@code frame * ascans + ascan}; NaN where there is none
   * @return index {@code row * columns + column}; NaN where there is none
   */
  public float[] interpolate(ScanPath path, Landmark centre, double[] values, MapLattice lattice) {
    check(path, values);
    return draw(path, AscanThickness.of(path, centre.point(), values), lattice);
  }

  /**
   * Returns the integral, over the whole scan, of the surface that {@link #interpolate} samples.
   * Where frames overlap, both count.
   *
   * @param path where the A-scans lie; its frames must span an area
   * @param values index {@code frame * ascans + ascan}; NaN where there is none
   */
  public ScanIntegral integrate(ScanPath path, double[] values) {
    check(path, values);
    AscanThickness given = AscanThickness.of(path, path.middle(), values);
    QuadIntegral covered = new QuadIntegral();
    for (FramePair pair : FrameNeighbours.of(path, given::anyIn)) {
      between(pair, given, covered, true);
    }
    QuadIntegral scanned = new QuadIntegral();
    for (FramePair pair : FrameNeighbours.of(path, frame -> true)) {
      between(pair, given, scanned, false);
    }
    return new ScanIntegral(covered.sum(), covered.areaMm2(), scanned.areaMm2());
  }

  private static void check(ScanPath path, double[] values) {
    if (!canMap(path) || values.length != path.frames() * path.ascans()) {
      throw new IllegalArgumentException(
          values.length
              + " values for "
              + path.frames()
              + " x "
              + path.ascans()
              + " A-scans as "
              + path.pattern().word());
    }
  }

  private float[] draw(ScanPath path, AscanThickness thickness, MapLattice lattice) {
    QuadRaster raster = new QuadRaster(lattice);
    for (FramePair pair : FrameNeighbours.of(path, thickness::anyIn)) {
      between(pair, thickness, raster, true);
    }
    return raster.means();
  }

  private static void check(OctScan scan, ScanPath path, BoundarySet boundaries, Layer layer) {
    int frames = scan.size().frames();
    int ascans = scan.size().ascans();
    if (path.frames() != frames || path.ascans() != ascans) {
      throw new IllegalArgumentException(
          "the path is for "
              + path.frames()
              + " x "
              + path.ascans()
              + ", the scan has "
              + frames
              + " x "
              + ascans);
    }
    if (boundaries.frames() != frames || boundaries.ascans() != ascans) {
      throw new IllegalArgumentException(
          "the boundaries are for "
              + boundaries.frames()
              + " x "
              + boundaries.ascans()
              + ", the scan has "
              + frames
              + " x "
              + ascans);
    }
    if (!boundaries.has(layer)) {
      throw new IllegalArgumentException("no boundaries for the layer " + layer.name());
    }
    if (!canMap(path)) {
      throw new IllegalArgumentException(
          path.frames() + " frames as " + path.pattern().word() + " span no area to map");
    }
  }

  /**
   * Hands over the quadrilaterals between two frames.
   *
   * @param whole whether only those whose four corners have values and lie near enough
   */
  private void between(FramePair pair, AscanThickness thickness, QuadTaker taker, boolean whole) {
    int last = thickness.ascans - 1;
    for (int j = 0; j < last; j++) {
      int a = pair.first() * thickness.ascans + (pair.firstReversed() ? last - j : j);
      int b = pair.firstReversed() ? a - 1 : a + 1;
      int d = pair.second() * thickness.ascans + (pair.secondReversed() ? last - j : j);
      int c = pair.secondReversed() ? d - 1 : d + 1;
      boolean usable =
          near(thickness, a, b)
              && near(thickness, b, c)
              && near(thickness, c, d)
              && near(thickness, d, a);
      if (usable || !whole) {
        setCorner(taker, 0, thickness, a);
        setCorner(taker, 1, thickness, b);
        setCorner(taker, 2, thickness, c);
        setCorner(taker, 3, thickness, d);
        taker.draw();
      }
    }
  }

  /** Returns whether two A-scans have values and may be interpolated between. */
  private boolean near(AscanThickness thickness, int i, int j) {
    double dx = thickness.x[i] - thickness.x[j];
    double dy = thickness.y[i] - thickness.y[j];
    double limit = rules.maximumGapMm() * ROUNDING;
    return !Double.isNaN(thickness.micrometres[i])
        && !Double.isNaN(thickness.micrometres[j])
        && dx * dx + dy * dy <= limit * limit;
  }

  private static void setCorner(QuadTaker taker, int corner, AscanThickness thickness, int i) {
    taker.corner(corner, thickness.x[i], thickness.y[i], thickness.micrometres[i]);
  }
}
