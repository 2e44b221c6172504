package org.isopach.analysis.nerve;

import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;

/**
 * A named way to cut a full turn into arcs.
 *
 * @param name the scheme's name in tables
 * @param source where it was published, or what else it rests on
 * @param arcs each beginning where the one before ends, a full turn together; the name {@value
 *     #GLOBAL} is kept for the whole
 */
public record ArcScheme(String name, String source, List<Arc> arcs) {
  /** The name of the whole circle. */
  public static final String GLOBAL = "global";

  private static final double ROUNDING = 1e-9;

  /**
   * @throws IllegalArgumentException when names repeat or the arcs are not one full turn without
   *     gap or overlap
   */
  public ArcScheme {
    Objects.requireNonNull(name, "name");
    Objects.requireNonNull(source, "source");
    arcs = List.copyOf(arcs);
    Set<String> names = new HashSet<>(Set.of(GLOBAL));
    double total = 0;
    for (int i = 0; i < arcs.size(); i++) {
      Arc arc = arcs.get(i);
      Arc next = arcs.get((i + 1) % arcs.size());
      if (!names.add(arc.name())) {
        throw new IllegalArgumentException(name + ": the name " + arc.name() + " is taken");
      }
      double gap = DiscAngle.signed(next.fromDegrees() - arc.fromDegrees() - arc.widthDegrees());
      if (Math.abs(gap) > ROUNDING) {
        throw new IllegalArgumentException(
            name + ": " + next.name() + " does not begin where " + arc.name() + " ends");
      }
      total += arc.widthDegrees();
    }
    if (Math.abs(total - DiscAngle.FULL_TURN) > ROUNDING) {
      throw new IllegalArgumentException(name + ": the arcs make " + total + " degrees");
    }
  }
}
