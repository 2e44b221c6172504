package org.isopach.job;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.nerve.DiscOpening;

/**
 * What other scans of an eye tell of where a circle scan lies; all in the same frame of reference.
 *
 * @param opening the disc's opening as a volume shows it
 * @param otherCircleMm distance to the centre of the circle scan farthest away, mm; empty without
 *     another one round a disc
 */
record CircleWitness(Optional<DiscOpening> opening, OptionalDouble otherCircleMm) {
  CircleWitness {
    Objects.requireNonNull(opening, "opening");
    Objects.requireNonNull(otherCircleMm, "otherCircleMm");
  }
}
