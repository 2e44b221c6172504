package org.isopach.analysis.stat;

import java.util.Objects;

/**
 * Says that sound data do not suffice for a statistic. Wrong arguments (NaN, rows of unequal
 * length) are {@link IllegalArgumentException}s instead.
 */
public final class CannotEstimateException extends RuntimeException {
  private static final long serialVersionUID = 1L;

  /** What is missing. */
  public enum Reason {
    /** Fewer subjects, pairs or points than the statistic needs. */
    TOO_FEW("too-few"),
    /** All values, or all abscissas, are the same, so that the statistic is 0 / 0. */
    NO_VARIATION("no-variation"),
    /** One predictor is a linear combination of the others. */
    COLLINEAR("collinear");

    private final String word;

    Reason(String word) {
      this.word = word;
    }

    /** Returns the word for tables. */
    public String word() {
      return word;
    }
  }

  private final Reason reason;

  /**
   * Makes the exception.
   *
   * @param reason what is missing
   * @param detail the particulars in plain words, for a table or a page
   */
  public CannotEstimateException(Reason reason, String detail) {
    super(detail);
    this.reason = Objects.requireNonNull(reason, "reason");
  }

  /** Returns what is missing. */
  public Reason reason() {
    return reason;
  }

  static CannotEstimateException tooFew(String what, int needed, int found) {
    return new CannotEstimateException(
        Reason.TOO_FEW, "needs at least " + needed + " " + what + ", found " + found);
  }
}
