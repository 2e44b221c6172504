package org.isopach.segment;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.BoundaryRule.Polarity;

/**
 * The boundaries that are settled on an edge of the picture. All others stay where the tissue map
 * puts them.
 */
final class BoundaryRules {
  private static final Map<Boundary, BoundaryRule> ALL = new EnumMap<>(Boundary.class);

  static {
    for (BoundaryRule rule :
        List.of(
            new BoundaryRule(Boundary.ILM, Polarity.DARK_TO_BRIGHT, 14, 0.2, 12, 0.05, 14, 0.75),
            new BoundaryRule(Boundary.EZ, Polarity.DARK_TO_BRIGHT, 14, 0.2, 10, 0.10, 18, 0.74),
            new BoundaryRule(Boundary.RPE, Polarity.BRIGHT_TO_DARK, 14, 0.2, 12, 0.12, 18, 0.85),
            new BoundaryRule(Boundary.BM, Polarity.BRIGHT_TO_DARK, 14, 0.2, 16, 0.30, 30, 0.73))) {
      ALL.put(rule.boundary(), rule);
    }
  }

  private BoundaryRules() {}

  /** Returns the rule of a boundary, or null when it stays where the map puts it. */
  static BoundaryRule of(Boundary boundary) {
    return ALL.get(boundary);
  }
}
