package org.isopach.analysis.map;

import java.util.List;
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
    QuadRaster raster = new QuadRaster(lattice);
    List<FramePair> pairs = FrameNeighbours.of(path, thickness::anyIn);
    for (FramePair pair : pairs) {
      drawBetween(pair, thickness, raster);
    }
    return new ThicknessMap(
        layer, laterality, lattice, centre, scan.identity(), scan.document(), raster.means());
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

  private void drawBetween(FramePair pair, AscanThickness thickness, QuadRaster raster) {
    int last = thickness.ascans - 1;
    for (int j = 0; j < last; j++) {
      int a = pair.first() * thickness.ascans + (pair.firstReversed() ? last - j : j);
      int b = pair.firstReversed() ? a - 1 : a + 1;
      int d = pair.second() * thickness.ascans + (pair.secondReversed() ? last - j : j);
      int c = pair.secondReversed() ? d - 1 : d + 1;
      if (near(thickness, a, b)
          && near(thickness, b, c)
          && near(thickness, c, d)
          && near(thickness, d, a)) {
        setCorner(raster, 0, thickness, a);
        setCorner(raster, 1, thickness, b);
        setCorner(raster, 2, thickness, c);
        setCorner(raster, 3, thickness, d);
        raster.draw();
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

  private static void setCorner(QuadRaster raster, int corner, AscanThickness thickness, int i) {
    raster.corner(corner, thickness.x[i], thickness.y[i], thickness.micrometres[i]);
  }
}
