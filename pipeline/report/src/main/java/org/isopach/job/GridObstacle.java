package org.isopach.job;

import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.SegmentationResult;

/** Says why a scan can have its boundaries found but no map, grid or change. */
public final class GridObstacle {
  private static final double LEAST_DISC_FROM_MIDDLE_MM = 2.5;

  private GridObstacle() {}

  /** Returns what stands in the way of a map, or empty when nothing known in advance does. */
  public static Optional<Finding> of(OctScan scan) {
    if (scan.path().isEmpty()) {
      return finding(scan, FindingKind.NO_PLACEMENT, "where the A-scans lie is not stated");
    }
    ScanPath path = scan.path().get();
    if (path.pattern() == ScanPattern.SINGLE_LINE) {
      return finding(scan, FindingKind.SINGLE_LINE, "the scan is a single line");
    }
    if (!MapInterpolator.canMap(path)) {
      return finding(
          scan,
          FindingKind.PATTERN_WITHOUT_GRID,
          "the frames draw the figure '"
              + path.pattern().word()
              + "', which spans no area"
              + (NerveRun.isNerveOnly(scan) ? "; 'isopach nerve' measures it" : ""));
    }
    if (scan.laterality().isEmpty()) {
      return finding(scan, FindingKind.NO_LATERALITY, "which eye it is, is not known");
    }
    return Optional.empty();
  }

  /**
   * Returns what was found in the scan that stands in the way of a map, or empty: a scan around the
   * disc has no fovea, and its middle is no stand-in for one.
   */
  static Optional<Finding> of(OctScan scan, SegmentationResult found) {
    Optional<OpticDisc> disc = found.disc().filter(d -> found.fovea().isEmpty());
    if (disc.isEmpty() || scan.path().isEmpty()) {
      return Optional.empty();
    }
    double away = disc.get().centre().distanceMm(scan.path().get().middle());
    return away >= LEAST_DISC_FROM_MIDDLE_MM
        ? Optional.empty()
        : finding(
            scan,
            FindingKind.NO_MACULA,
            String.format(
                Locale.ROOT,
                "the optic disc lies %.1f mm from the middle of the scan and no fovea was found",
                away));
  }

  /** Returns that a grid would lie round the disc, or empty when it would not. */
  static Optional<Finding> ofDisc(OctScan scan, boolean disc) {
    return disc
        ? finding(
            scan, FindingKind.NO_MACULA, "the optic disc's opening lies where a fovea would be")
        : Optional.empty();
  }

  private static Optional<Finding> finding(OctScan scan, FindingKind kind, String detail) {
    return Optional.of(new Finding(kind, scan.document().location(), detail));
  }
}
