package org.isopach.dicom.check;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Gathers findings in order, each once. */
final class Collector {
  private final Set<Violation> violations = new LinkedHashSet<>();
  private final Set<Unchecked> unchecked = new LinkedHashSet<>();

  void violation(String path, Violation.Rule rule, String expected, String actual) {
    violations.add(new Violation(path, rule, expected, actual));
  }

  void unchecked(String path, String reason) {
    unchecked.add(new Unchecked(path, reason));
  }

  CheckReport report() {
    return new CheckReport(List.copyOf(violations), List.copyOf(unchecked));
  }

  static String path(String outer, int tag) {
    String own = String.format("(%04X,%04X)", tag >>> 16, tag & 0xffff);
    return outer.isEmpty() ? own : outer + "/" + own;
  }

  /** Returns the path of an item, 0-based index given, 1-based shown. */
  static String item(String path, int index) {
    return path + "[" + (index + 1) + "]";
  }
}
