package org.isopach.analysis.nerve;

import java.util.Objects;

/**
 * Why an arc has no number.
 *
 * @param arc the arc's name
 * @param reason the kind of obstacle
 * @param widthDegrees the arc's width
 * @param coveredFraction share of it that has values, from 0 to 1
 * @param detail the particulars in plain words
 */
public record ArcMissing(
    String arc, Reason reason, double widthDegrees, double coveredFraction, String detail)
    implements ArcResult {
  /** What can keep an arc from being measured. */
  public enum Reason {
    /** Less of the arc has values than was asked for. */
    LOW_COVERAGE("low-coverage"),
    /** No sample of the arc has a value. */
    NO_VALUE("no-value"),
    /** The whole circle, one or more of whose arcs could not be measured. */
    INCOMPLETE_CIRCLE("incomplete-circle");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }

  public ArcMissing {
    Objects.requireNonNull(arc, "arc");
    Objects.requireNonNull(reason, "reason");
    Objects.requireNonNull(detail, "detail");
  }
}
