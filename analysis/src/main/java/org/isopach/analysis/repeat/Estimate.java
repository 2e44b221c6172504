package org.isopach.analysis.repeat;

import java.util.Objects;
import java.util.Optional;
import java.util.function.Supplier;
import org.isopach.analysis.stat.CannotEstimateException;

/**
 * A statistic, or why there is none.
 *
 * @param value the statistic
 * @param reason why there is none, a word and the particulars; empty when there is one
 * @param <T> the statistic's type
 */
public record Estimate<T>(Optional<T> value, String reason) {
  public Estimate {
    Objects.requireNonNull(value, "value");
    Objects.requireNonNull(reason, "reason");
    if (value.isPresent() != reason.isEmpty()) {
      throw new IllegalArgumentException("either a value or a reason: " + reason);
    }
  }

  static <T> Estimate<T> of(Supplier<T> statistic) {
    try {
      return new Estimate<>(Optional.of(statistic.get()), "");
    } catch (CannotEstimateException e) {
      return refused(e.reason(), e.getMessage());
    }
  }

  static <T> Estimate<T> refused(CannotEstimateException.Reason reason, String detail) {
    return new Estimate<>(Optional.empty(), reason.word() + ": " + detail);
  }
}
