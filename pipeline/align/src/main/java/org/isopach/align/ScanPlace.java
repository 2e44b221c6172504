package org.isopach.align;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.Landmark;

/**
 * What is known of where a scan lies.
 *
 * @param landmark the centre found for the scan, in mm of its path
 * @param path where its A-scans lie
 * @param shadows the vessels' shadows, on the same path; empty when they could not be seen
 */
public record ScanPlace(Landmark landmark, ScanPath path, Optional<EnFace> shadows) {
  public ScanPlace {
    Objects.requireNonNull(landmark, "landmark");
    Objects.requireNonNull(path, "path");
    Objects.requireNonNull(shadows, "shadows");
  }

  /** Returns what the scan's coordinates are counted from. */
  public FundusFrame frame() {
    return path.frame();
  }

  boolean hasPit() {
    return landmark.source() == Landmark.Source.FOVEAL_PIT;
  }
}
