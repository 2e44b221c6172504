package org.isopach.job;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.IntStream;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.CircleResult;
import org.isopach.analysis.nerve.CircleSampler;
import org.isopach.analysis.nerve.NoCircle;
import org.isopach.analysis.scan.OctScan;

/** Says why a scan cannot be measured as one of the nerve. */
final class NerveObstacle {
  /**
   * Round a disc the mean is never below, µm: in the last stage of glaucoma about 50 stay (from
   * memory); ours.
   */
  static final double THINNEST_MEAN_UM = 40;

  private NerveObstacle() {}

  /** Returns what stands in the way, or empty when nothing known in advance does. */
  static Optional<Finding> of(OctScan scan) {
    if (scan.path().isEmpty()) {
      return finding(scan, FindingKind.NO_PLACEMENT, "where the A-scans lie is not stated");
    }
    if (scan.laterality().isEmpty()) {
      return finding(
          scan,
          FindingKind.NO_LATERALITY,
          "which eye it is, is not known, nor where temporal is: no profile");
    }
    return switch (scan.path().get().pattern()) {
      case CIRCLE, RASTER, RADIAL -> Optional.empty();
      case SINGLE_LINE ->
          finding(scan, FindingKind.NOT_A_NERVE_SCAN, "the scan is a single straight line");
      case IRREGULAR -> ofIrregular(scan, scan.path().get());
    };
  }

  /** Returns whether the boundaries of such a scan are looked for all the same. */
  static boolean boundariesOnly(Finding obstacle) {
    return obstacle.kind() == FindingKind.NO_PLACEMENT
        || obstacle.kind() == FindingKind.NO_LATERALITY;
  }

  /** An arc of a circle is told from any other figure by its shape alone. */
  private static Optional<Finding> ofIrregular(OctScan scan, ScanPath path) {
    CircleResult shape =
        CircleSampler.ofCircleScan(
            scan, path, nothing(path), CircleSight.FIBRES, 0, AngleZero.HORIZONTAL);
    return shape instanceof NoCircle none
            && none.reason() == NoCircle.Reason.TRUNCATED
            && path.frames() == 1
        ? Optional.of(of(scan, none))
        : finding(
            scan,
            FindingKind.NOT_A_NERVE_SCAN,
            "the frames draw the figure '" + ScanPattern.IRREGULAR.word() + "'");
  }

  /** Returns why a scan along a circle gave no profile. */
  static Finding of(OctScan scan, NoCircle none) {
    FindingKind kind =
        switch (none.reason()) {
          case TRUNCATED -> FindingKind.CIRCLE_TRUNCATED;
          case NO_LATERALITY -> FindingKind.NO_LATERALITY;
          case LAYER_NOT_SEARCHED -> FindingKind.LAYER_NOT_SEARCHED;
          case NOT_ROUND, FRAMES_DIFFER -> FindingKind.NOT_A_NERVE_SCAN;
        };
    return new Finding(kind, scan.document().location(), none.detail());
  }

  /** Returns why a closed circle cannot lie round a disc: the layer there is never so thin. */
  static Optional<Finding> tooThin(OctScan scan, CircleProfile profile) {
    OptionalDouble mean =
        IntStream.range(0, profile.samples())
            .mapToDouble(profile::thicknessUm)
            .filter(Double::isFinite)
            .average();
    return mean.isPresent() && mean.getAsDouble() < THINNEST_MEAN_UM
        ? finding(
            scan,
            FindingKind.NOT_A_NERVE_SCAN,
            String.format(
                Locale.ROOT,
                "the nerve fibre layer along the circle has a mean of %.0f µm, below %.0f µm: too thin"
                    + " to tell a circle round a disc from one elsewhere",
                mean.getAsDouble(),
                THINNEST_MEAN_UM))
        : Optional.empty();
  }

  private static BoundarySet nothing(ScanPath path) {
    float[] depths = new float[path.frames() * path.ascans()];
    Arrays.fill(depths, Float.NaN);
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    for (Boundary boundary :
        new Boundary[] {CircleSight.FIBRES.inner(), CircleSight.FIBRES.outer()}) {
      surfaces.put(
          boundary,
          new BoundarySurface(path.frames(), path.ascans(), depths, new float[depths.length]));
    }
    return new BoundarySet(surfaces);
  }

  private static Optional<Finding> finding(OctScan scan, FindingKind kind, String detail) {
    return Optional.of(new Finding(kind, scan.document().location(), detail));
  }
}
