package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;

/**
 * How one boundary is looked for: data, not code.
 *
 * @param boundary which boundary
 * @param polarity whether the tissue gets brighter or darker there, going outwards
 * @param anchor what the search band is measured from
 * @param fromMicrometres start of the search band relative to the anchor, µm, negative = inwards
 * @param toMicrometres end of the search band relative to the anchor, µm
 * @param windowMicrometres length on either side whose means are compared
 * @param lateralMicrometres standard deviation of the smoothing along the scan before the search
 * @param stiffness cost of moving by one depth pixel between neighbouring A-scans, in units of the
 *     frame's contrast
 * @param smoothMicrometres standard deviation of the smoothing of the found line along the scan
 * @param expectedMicrometres where in the band the boundary is expected, relative to the anchor
 * @param expectationWeight cost of being 30 µm away from there, in units of the frame's contrast
 */
record BoundaryRule(
    Boundary boundary,
    Polarity polarity,
    Anchor anchor,
    double fromMicrometres,
    double toMicrometres,
    double windowMicrometres,
    double lateralMicrometres,
    double stiffness,
    double smoothMicrometres,
    double expectedMicrometres,
    double expectationWeight) {

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

  /** What a search band can be measured from. */
  enum Anchor {
    /** The coarse path of the inner limiting membrane. */
    INNER_PATH,
    /** The coarse path of the outer bands' inner edge. */
    OUTER_PATH,
    /** The ellipsoid zone as already traced, made smooth. */
    EZ_SMOOTH,
    /** Bruch's membrane as already traced. */
    BM
  }
}
