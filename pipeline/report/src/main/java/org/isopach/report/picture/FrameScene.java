package org.isopach.report.picture;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;

/**
 * One frame with what was found in it.
 *
 * @param scan the scan
 * @param frame which frame, 0-based
 * @param why why it was chosen, in words
 * @param path where the A-scans lie, in the mm of the maps; empty when not known
 * @param centre the landmark of the maps in the coordinates of {@code path}; empty when none
 * @param boundaries what was found in the scan
 * @param labels its regions
 */
public record FrameScene(
    OctScan scan,
    int frame,
    String why,
    Optional<ScanPath> path,
    Optional<Landmark> centre,
    BoundarySet boundaries,
    RegionLabels labels) {
  public FrameScene {
    Objects.requireNonNull(scan, "scan");
    Objects.checkIndex(frame, scan.size().frames());
    Objects.requireNonNull(why, "why");
    Objects.requireNonNull(path, "path");
    Objects.requireNonNull(centre, "centre");
    Objects.requireNonNull(boundaries, "boundaries");
    Objects.requireNonNull(labels, "labels");
  }
}
