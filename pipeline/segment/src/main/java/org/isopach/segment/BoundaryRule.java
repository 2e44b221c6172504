package org.isopach.segment;

import org.isopach.analysis.layer.Boundary;

/**
 * How one boundary is looked for: data, not code.
 *
 * @param boundary which boundary
 * @param polarity whether the tissue gets brighter or darker there, going outwards
 * @param strip the strip of the frame it is traced in
 * @param anchor what the search band is measured from
 * @param band where the boundary is searched for, relative to the anchor
 * @param windowMicrometres length on either side whose means are compared
 * @param stiffness cost of moving by one depth pixel between neighbouring A-scans, in units of the
 *     frame's contrast
 * @param smoothMicrometres standard deviation of the smoothing of the found line along the scan
 * @param edgeShare how far from the darker to the brighter side, 0 to 1, the boundary lies
 */
record BoundaryRule(
    Boundary boundary,
    Polarity polarity,
    StripRule strip,
    Anchor anchor,
    Band band,
    double windowMicrometres,
    double stiffness,
    double smoothMicrometres,
    double edgeShare) {

  /**
   * A search band relative to an anchor, in µm, negative = inwards.
   *
   * @param fromMicrometres its start
   * @param toMicrometres its end
   * @param expectedMicrometres where in it the boundary is expected
   * @param expectationWeight cost of being 30 µm away from there, in units of the frame's contrast
   */
  record Band(
      double fromMicrometres,
      double toMicrometres,
      double expectedMicrometres,
      double expectationWeight) {}

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
    /** The coarse path of the outer bands' inner edge, made smooth. */
    OUTER_PATH,
    /** Bruch's membrane as already traced. */
    BM,
    /** The outer border of the pigment epithelium as already traced. */
    RPE
  }
}
