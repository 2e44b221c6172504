package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;

/**
 * How one boundary is settled at full resolution near where the tissue map puts it: data, not code.
 *
 * @param boundary which boundary
 * @param polarity whether the tissue gets brighter or darker there, going outwards
 * @param reachMicrometres how far from the map's place the edge is looked for, on either side
 * @param expectationWeight cost of being 30 µm away from there, in units of the frame's contrast
 * @param windowMicrometres length on either side whose means are compared
 * @param stiffness cost of moving by one depth pixel between neighbouring A-scans, relative to the
 *     map's place, in units of the frame's contrast
 * @param smoothMicrometres standard deviation of the smoothing of the found line along the scan
 * @param edgeShare how far from the darker to the brighter side, 0 to 1, the boundary lies
 */
record BoundaryRule(
    Boundary boundary,
    Polarity polarity,
    double reachMicrometres,
    double expectationWeight,
    double windowMicrometres,
    double stiffness,
    double smoothMicrometres,
    double edgeShare) {

  /** The sign of an edge, going outwards. */
  enum Polarity {
    DARK_TO_BRIGHT(1),
    BRIGHT_TO_DARK(-1);

    private final int sign;

    Polarity(int sign) {
      this.sign = sign;
    }

    int sign() {
      return sign;
    }
  }
}
