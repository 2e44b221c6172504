package org.isopach.analysis.normal;

import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.commons.math3.distribution.NormalDistribution;

/**
 * A group's normal distribution at an eye's age and size.
 *
 * @param row the row
 * @param meanUm mean in µm
 * @param sdUm standard deviation in µm
 * @param notes what is not accounted for
 */
public record NormalLimits(ReferenceRow row, double meanUm, double sdUm, List<String> notes) {
  public NormalLimits {
    Objects.requireNonNull(row, "row");
    notes = List.copyOf(notes);
  }

  /**
   * Returns the thickness in µm below which {@code percent} of the group lie, 0 to 100 exclusive.
   */
  public double umAt(double percent) {
    return meanUm
        + sdUm * new NormalDistribution(null, 0, 1).inverseCumulativeProbability(percent / 100);
  }

  /** Returns this with more that is not accounted for, said last. */
  public NormalLimits noting(List<String> more) {
    return new NormalLimits(
        row, meanUm, sdUm, Stream.concat(notes.stream(), more.stream()).toList());
  }

  /** Returns a value less the mean, in standard deviations. */
  public double z(double valueUm) {
    return (valueUm - meanUm) / sdUm;
  }
}
