package org.isopach.segment;

import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.BoundaryRule.Anchor;
import org.isopach.segment.BoundaryRule.Band;
import org.isopach.segment.BoundaryRule.Polarity;

/** The boundaries looked for, in the order of the search. */
final class BoundaryRules {
  private BoundaryRules() {}

  /**
   * Returns the rules of the whole-retina measurements: the inner limiting membrane, the inner
   * border of the ellipsoid zone, Bruch's membrane and the outer border of the pigment epithelium.
   *
   * <p>The outermost edge is the surest, so it comes first and the ellipsoid zone is looked for
   * from the pigment epithelium inwards. The ellipsoid zone to Bruch's membrane is about 70 µm in
   * health (69.5 ± 6.9 µm in 30 eyes; the source, a preprint, is named in docs/measurements.md);
   * the band is wide enough for twice that.
   */
  static List<BoundaryRule> wholeRetina() {
    return List.of(
        new BoundaryRule(
            Boundary.ILM,
            Polarity.DARK_TO_BRIGHT,
            StripRule.INNER,
            Anchor.INNER_PATH,
            new Band(-50, 50, 0, 0),
            12,
            0.05,
            14,
            0.75),
        new BoundaryRule(
            Boundary.BM,
            Polarity.BRIGHT_TO_DARK,
            StripRule.OUTER,
            Anchor.OUTER_PATH,
            new Band(20, 140, 70, 0.03),
            16,
            0.40,
            35,
            0.73),
        new BoundaryRule(
            Boundary.RPE,
            Polarity.BRIGHT_TO_DARK,
            StripRule.OUTER,
            Anchor.BM,
            new Band(-60, 8, 0, 0.05),
            12,
            0.12,
            18,
            0.85),
        new BoundaryRule(
            Boundary.EZ,
            Polarity.DARK_TO_BRIGHT,
            StripRule.OUTER,
            Anchor.RPE,
            new Band(-112, -26, -67, 0.05),
            10,
            0.10,
            18,
            0.74));
  }
}
