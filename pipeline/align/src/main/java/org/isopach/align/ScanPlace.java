package org.isopach.align;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.map.Landmark;

/**
 * What is known of where a scan lies.
 *
 * @param landmark the centre found for the scan, in mm of {@code frame}
 * @param frame what the scan's coordinates are counted from
 */
public record ScanPlace(Landmark landmark, FundusFrame frame) {
  public ScanPlace {
    Objects.requireNonNull(landmark, "landmark");
    Objects.requireNonNull(frame, "frame");
  }
}
