package org.isopach.job;

import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.scan.OctScan;

/** Says why a scan can have its boundaries found but no map, grid or change. */
public final class GridObstacle {
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
          "the frames draw the figure '" + path.pattern().word() + "', which spans no area");
    }
    if (scan.laterality().isEmpty()) {
      return finding(scan, FindingKind.NO_LATERALITY, "which eye it is, is not known");
    }
    return Optional.empty();
  }

  private static Optional<Finding> finding(OctScan scan, FindingKind kind, String detail) {
    return Optional.of(new Finding(kind, scan.document().location(), detail));
  }
}
