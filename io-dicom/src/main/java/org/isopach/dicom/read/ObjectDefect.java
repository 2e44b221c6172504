package org.isopach.dicom.read;

import java.util.Objects;
import org.isopach.analysis.finding.FindingKind;

/** Why an object cannot be used; becomes a finding where the object's name is known. */
public final class ObjectDefect extends Exception {
  private static final long serialVersionUID = 1L;

  private final FindingKind kind;

  /** Makes a defect of a kind with its particulars in plain words. */
  public ObjectDefect(FindingKind kind, String detail) {
    super(detail);
    this.kind = Objects.requireNonNull(kind, "kind");
  }

  /** Makes a defect with the error behind it. */
  public ObjectDefect(FindingKind kind, String detail, Throwable cause) {
    super(detail, cause);
    this.kind = Objects.requireNonNull(kind, "kind");
  }

  /** Returns what is the matter. */
  public FindingKind kind() {
    return kind;
  }

  /** Returns the particulars. */
  public String detail() {
    return getMessage();
  }
}
