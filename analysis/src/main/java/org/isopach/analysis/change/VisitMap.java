package org.isopach.analysis.change;

import java.util.Objects;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.map.ThicknessMap;

/**
 * One visit's map, with the axial scale its micrometres rest on.
 *
 * @param map thickness in µm; its scan's acquisition time dates the visit
 * @param axial the scale of the scan it was made from
 */
public record VisitMap(ThicknessMap map, AxialScale axial) {
  public VisitMap {
    Objects.requireNonNull(map, "map");
    Objects.requireNonNull(axial, "axial");
  }
}
