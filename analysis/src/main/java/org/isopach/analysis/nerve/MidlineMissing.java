package org.isopach.analysis.nerve;

import java.util.Objects;

/**
 * Why there is no difference across the midline: too little is covered.
 *
 * @param coveredFraction share of what was to be compared that could be, from 0 to 1
 * @param detail the particulars in plain words
 */
public record MidlineMissing(double coveredFraction, String detail) implements MidlineResult {
  public MidlineMissing {
    Objects.requireNonNull(detail, "detail");
  }

  /** Returns the reason's name in tables. */
  public String code() {
    return "low-coverage";
  }
}
