package org.isopach.segment;

import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.BoundaryRule.Anchor;
import org.isopach.segment.BoundaryRule.Polarity;

/** The boundaries looked for, in the order of the search. */
final class BoundaryRules {
  private BoundaryRules() {}

  /**
   * Returns the rules of the whole-retina measurements: the inner limiting membrane, the inner
   * border of the ellipsoid zone, Bruch's membrane and the outer border of the pigment epithelium.
   *
   * <p>The ellipsoid zone to Bruch's membrane is about 70 µm in health (69.5 ± 6.9 µm in 30 eyes;
   * the source, a preprint, is named in docs/measurements.md); the band is wide enough for twice
   * that.
   */
  static List<BoundaryRule> wholeRetina() {
    return List.of(
        new BoundaryRule(
            Boundary.ILM,
            Polarity.DARK_TO_BRIGHT,
            Anchor.INNER_PATH,
            -50,
            50,
            12,
            10,
            0.05,
            14,
            0,
            0),
        new BoundaryRule(
            Boundary.EZ,
            Polarity.DARK_TO_BRIGHT,
            Anchor.OUTER_PATH,
            -32,
            40,
            10,
            14,
            0.10,
            18,
            0,
            0.05),
        new BoundaryRule(
            Boundary.BM,
            Polarity.BRIGHT_TO_DARK,
            Anchor.EZ_SMOOTH,
            24,
            130,
            16,
            22,
            0.40,
            35,
            70,
            0.03),
        new BoundaryRule(
            Boundary.RPE, Polarity.BRIGHT_TO_DARK, Anchor.BM, -60, 8, 12, 14, 0.12, 18, 0, 0.05));
  }
}
