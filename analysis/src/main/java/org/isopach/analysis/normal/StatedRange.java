package org.isopach.analysis.normal;

import java.util.Objects;
import java.util.OptionalDouble;

/**
 * The range a source states, both ends inclusive.
 *
 * @param from lower end; empty where the source states none
 * @param to upper end; empty where the source states none
 */
public record StatedRange(OptionalDouble from, OptionalDouble to) {
  /** A source that states nothing. */
  public static final StatedRange NOT_STATED =
      new StatedRange(OptionalDouble.empty(), OptionalDouble.empty());

  public StatedRange {
    Objects.requireNonNull(from, "from");
    Objects.requireNonNull(to, "to");
    if (from.isPresent() && to.isPresent() && !(from.getAsDouble() <= to.getAsDouble())) {
      throw new IllegalArgumentException("a range runs upwards, was " + from + " to " + to);
    }
  }

  /** Returns a range of which both ends are stated. */
  public static StatedRange of(double from, double to) {
    return new StatedRange(OptionalDouble.of(from), OptionalDouble.of(to));
  }

  /** Returns whether at least one end is stated. */
  public boolean isStated() {
    return from.isPresent() || to.isPresent();
  }

  /** Returns whether the value is on the right side of the ends that are stated. */
  public boolean contains(double value) {
    return value >= from.orElse(Double.NEGATIVE_INFINITY)
        && value <= to.orElse(Double.POSITIVE_INFINITY);
  }

  /** Returns for example {@code 20 to 82}, {@code from 60} or {@code not stated}. */
  public String words() {
    if (!isStated()) {
      return "not stated";
    }
    if (to.isEmpty()) {
      return "from " + plain(from.getAsDouble());
    }
    String upper = "to " + plain(to.getAsDouble());
    return from.isEmpty() ? "up " + upper : plain(from.getAsDouble()) + " " + upper;
  }

  private static String plain(double value) {
    return value == Math.rint(value) ? Long.toString(Math.round(value)) : Double.toString(value);
  }
}
