package org.isopach.segment;

import java.util.Arrays;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.quality.QualityRules;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.tissue.MembraneModel;

/**
 * Finds the opening of Bruch's membrane in a raster or radial scan that is laid out as a right eye,
 * and the height of the ILM over it.
 */
final class OpeningFinder {
  private static final double LEAST_SEEN = 0.75;
  private static final double LEVEL_FROM_MM = 0.25;
  private static final double SURFACE_HALF_WIDTH_MM = 1.8;
  private static final double SURFACE_STEP_MM = 0.02;
  private static final int SLOPE_ASCANS = 4;
  private static final double STEEP = 0.5;

  private final OctScan scan;
  private final LoadedScan loaded;
  private final QualityMeter meter;
  private final ScanPath path;
  private final BoundarySet boundaries;

  /**
   * Makes a finder.
   *
   * @param loaded the scan, read with the nerve's model
   * @param meter which of its frames may be trusted
   * @param path the scan's path
   * @param boundaries what was traced in the scan
   */
  OpeningFinder(LoadedScan loaded, QualityMeter meter, ScanPath path, BoundarySet boundaries) {
    this.scan = loaded.scan();
    this.loaded = loaded;
    this.meter = meter;
    this.path = path;
    this.boundaries = boundaries;
  }

  /** Returns the opening, or why it was not seen. */
  OpeningResult find() {
    Optional<FittedContour> coarse = coarse();
    if (coarse.isEmpty()) {
      return OpeningResult.notSeen(
          boundaries, Optional.empty(), "no place looks like an optic disc");
    }
    DiscSamples samples = around(coarse.get());
    Optional<FittedContour> fine = new OpeningFit(samples).fine(coarse.get());
    if (fine.isEmpty()) {
      return OpeningResult.notSeen(
          boundaries,
          Optional.of(coarse.get().about()),
          "the end of Bruch's membrane was not found around the disc");
    }
    Optional<FittedContour> end = ended(fine.get());
    if (end.isEmpty()) {
      return OpeningResult.notSeen(
          boundaries,
          Optional.of(fine.get().about()),
          "the end of Bruch's membrane cannot be followed around the disc at full resolution");
    }
    return seen(end.get(), OpeningSight.of(end.get(), samples));
  }

  /** Returns small pictures of the membrane around the opening; empty where none is found. */
  Optional<MembranePatches> patches() {
    return coarse()
        .flatMap(coarse -> new OpeningFit(around(coarse)).fine(coarse))
        .map(this::patches);
  }

  private Optional<FittedContour> coarse() {
    return new OpeningFit(DiscSamples.ofColumns(loaded, meter, path)).coarse();
  }

  private DiscSamples around(FittedContour coarse) {
    return DiscSamples.ofMembrane(loaded, meter, path, surface(Boundary.BM), coarse);
  }

  private MembranePatches patches(FittedContour contour) {
    return MembranePatches.around(loaded, meter, path, surface(Boundary.BM), contour);
  }

  /**
   * Returns the contour where the membrane ends at full resolution; empty if it has no end there.
   */
  private Optional<FittedContour> ended(FittedContour fine) {
    MembranePatches patches = patches(fine);
    float[] open = MembraneModel.shipped().openShares(patches.values());
    DiscSamples samples = DiscSamples.ofPatches(patches, open, path);
    return new OpeningFit(samples).sharp(fine);
  }

  private OpeningResult seen(FittedContour contour, OpeningSight sight) {
    if (sight.seenFraction() < LEAST_SEEN) {
      return OpeningResult.notSeen(
          boundaries,
          Optional.of(contour.about()),
          String.format(
              Locale.ROOT,
              "the opening of Bruch's membrane is seen along %.0f %% of its edge, %.0f %% are needed",
              100 * sight.seenFraction(),
              100 * LEAST_SEEN));
    }
    FrameLevels levels =
        FrameLevels.of(
            surface(Boundary.BM),
            path,
            scan.axial(),
            contour,
            LEVEL_FROM_MM,
            QualityRules.DEFAULT.leastConfidence());
    OpeningHeights heights =
        OpeningHeights.of(contour, surface(Boundary.BM), path, scan.axial(), levels);
    if (heights.missing()) {
      return OpeningResult.notSeen(
          boundaries,
          Optional.of(contour.about()),
          "Bruch's membrane was not found around the disc");
    }
    return new OpeningResult(
        withoutOuter(contour),
        Optional.of(shape(contour, sight, heights, levels)),
        Optional.of(contour.about()),
        Optional.empty());
  }

  private BoundarySurface surface(Boundary boundary) {
    return boundaries.surface(boundary).orElseThrow();
  }

  private OpeningShape shape(
      FittedContour contour, OpeningSight sight, OpeningHeights heights, FrameLevels levels) {
    double[] radii = new double[DiscOpening.SAMPLES];
    for (int i = 0; i < radii.length; i++) {
      radii[i] = contour.radiusMm(OpeningSight.pictureAngle(i));
    }
    boolean[] seen = sight.seen();
    boolean[] sure = heights.sure();
    for (int i = 0; i < seen.length; i++) {
      seen[i] &= sure[i];
    }
    MapLattice lattice = MapLattice.centred(SURFACE_HALF_WIDTH_MM, SURFACE_STEP_MM);
    return new OpeningShape(
        contour.about(),
        radii,
        heights.heightUm(),
        seen,
        lattice,
        innerSurface(contour, levels, lattice));
  }

  private float[] innerSurface(FittedContour contour, FrameLevels levels, MapLattice lattice) {
    BoundarySurface ilm = surface(Boundary.ILM);
    double[] heights = new double[path.frames() * path.ascans()];
    Arrays.fill(heights, Double.NaN);
    for (int i = 0; i < heights.length; i++) {
      int f = i / path.ascans();
      int a = i % path.ascans();
      if (ilm.confidence(f, a) >= QualityRules.DEFAULT.leastConfidence() || steep(ilm, f, a)) {
        heights[i] = levels.shiftUm(f) - scan.axial().toMicrometres(ilm.depthPx(f, a));
      }
    }
    return new MapInterpolator(InterpolationRules.DEFAULT)
        .interpolate(
            path, new Landmark(contour.about(), Landmark.Source.SCAN_MIDDLE), heights, lattice);
  }

  /**
   * On a steep wall a depth may be far off along the beam and yet near to the wall: there the ILM
   * is taken whatever its confidence.
   */
  private boolean steep(BoundarySurface ilm, int frame, int ascan) {
    int from = Math.max(0, ascan - SLOPE_ASCANS);
    int to = Math.min(ilm.ascans() - 1, ascan + SLOPE_ASCANS);
    double rise =
        scan.axial().toMicrometres(ilm.depthPx(frame, to) - ilm.depthPx(frame, from)) / 1000;
    double run = path.point(frame, from).distanceMm(path.point(frame, to));
    return Math.abs(rise) > STEEP * run;
  }

  /** Inside of the opening there are no layers. */
  private BoundarySet withoutOuter(FittedContour contour) {
    return QualityGate.withoutOuter(boundaries, (f, a) -> contour.outsideMm(path.point(f, a)) >= 0);
  }
}
