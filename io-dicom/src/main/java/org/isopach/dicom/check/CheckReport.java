package org.isopach.dicom.check;

import java.util.List;

/**
 * The judgement of one object. No violation does not mean conformance: see what was not checked.
 *
 * @param violations what the standard does not allow, in the tables' order
 * @param unchecked what could not be judged
 */
public record CheckReport(List<Violation> violations, List<Unchecked> unchecked) {
  public CheckReport {
    violations = List.copyOf(violations);
    unchecked = List.copyOf(unchecked);
  }

  /** Returns whether nothing forbidden was found. */
  public boolean clean() {
    return violations.isEmpty();
  }
}
