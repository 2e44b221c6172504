package org.isopach.analysis.nerve;

import java.util.List;
import java.util.Objects;
import java.util.Optional;

/**
 * A profile cut by a scheme.
 *
 * @param profile what was cut
 * @param scheme the arcs
 * @param arcs one result for each of the scheme's arcs in its order
 * @param global the width-weighted whole
 */
public record ArcTable(
    CircleProfile profile, ArcScheme scheme, List<ArcResult> arcs, ArcResult global) {
  public ArcTable {
    Objects.requireNonNull(profile, "profile");
    Objects.requireNonNull(scheme, "scheme");
    arcs = List.copyOf(arcs);
    Objects.requireNonNull(global, "global");
  }

  /** Returns the result of an arc or of {@value ArcScheme#GLOBAL}, or empty. */
  public Optional<ArcResult> arc(String name) {
    return global.arc().equals(name)
        ? Optional.of(global)
        : arcs.stream().filter(result -> result.arc().equals(name)).findFirst();
  }
}
