package org.isopach.analysis.region;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.OctScan;

/**
 * A scan with what was found in it, ready to be measured.
 *
 * @param scan the scan
 * @param path where its A-scans lie: its own path, or that path in the patient's mm; empty when not
 *     stated
 * @param centre where a grid is put, in the coordinates of {@code path}; empty when there can be no
 *     grid
 * @param boundaries the boundaries found
 * @param labels the regions found
 */
public record RegionScene(
    OctScan scan,
    Optional<ScanPath> path,
    Optional<Landmark> centre,
    BoundarySet boundaries,
    RegionLabels labels) {
  public RegionScene {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(path, "path");
    Objects.requireNonNull(centre, "centre");
    Objects.requireNonNull(boundaries, "boundaries");
    Objects.requireNonNull(labels, "labels");
    if (!labels.size().equals(scan.size())
        || boundaries.frames() != scan.size().frames()
        || boundaries.ascans() != scan.size().ascans()) {
      throw new IllegalArgumentException("scan, boundaries and labels must have one shape");
    }
    if (centre.isPresent() && (path.isEmpty() || scan.laterality().isEmpty())) {
      throw new IllegalArgumentException("a grid needs a path and a known eye");
    }
  }
}
