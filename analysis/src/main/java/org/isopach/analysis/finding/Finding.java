package org.isopach.analysis.finding;

import java.util.Objects;

/**
 * Something worth saying about one object: a value, not a log line.
 *
 * @param kind what it is
 * @param subject the object it is about: a file's location or a SOP Instance UID
 * @param detail the particulars: name of the attribute, what was expected, what was there
 */
public record Finding(FindingKind kind, String subject, String detail) {
  public Finding {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(subject, "subject");
    Objects.requireNonNull(detail, "detail");
  }

  /** Returns one sentence: the object, what is the matter, what to do. */
  public String sentence() {
    return subject + ": " + detail + "; " + kind.advice();
  }
}
