package org.isopach.segment;

import org.isopach.segment.BoundaryRule.Anchor;

/** The strips that are cut out of each frame, once for all boundaries traced in them. */
enum StripRule {
  /** Around the inner limiting membrane. */
  INNER(Anchor.INNER_PATH, -90, 90, 10),
  /** From above the ellipsoid zone to below Bruch's membrane. */
  OUTER(Anchor.OUTER_PATH, -100, 190, 16);

  private final Anchor anchor;
  private final double fromMicrometres;
  private final double toMicrometres;
  private final double lateralMicrometres;

  StripRule(
      Anchor anchor, double fromMicrometres, double toMicrometres, double lateralMicrometres) {
    this.anchor = anchor;
    this.fromMicrometres = fromMicrometres;
    this.toMicrometres = toMicrometres;
    this.lateralMicrometres = lateralMicrometres;
  }

  /** Returns the line the strip follows. */
  Anchor anchor() {
    return anchor;
  }

  /** Returns the strip's start relative to the line, µm. */
  double fromMicrometres() {
    return fromMicrometres;
  }

  /** Returns the strip's end relative to the line, µm. */
  double toMicrometres() {
    return toMicrometres;
  }

  /** Returns the standard deviation of the smoothing along the scan, µm. */
  double lateralMicrometres() {
    return lateralMicrometres;
  }
}
