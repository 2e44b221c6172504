package org.isopach.dicom.read;

import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;

/** Collects the findings about one object, in the order they are made. */
public final class Remarks {
  private final String subject;
  private final List<Finding> findings = new ArrayList<>();

  /** Makes an empty collection for an object, named as findings shall name it. */
  public Remarks(String subject) {
    this.subject = subject;
  }

  /** Notes something. */
  public void add(FindingKind kind, String detail) {
    findings.add(new Finding(kind, subject, detail));
  }

  /** Notes a defect. */
  public void add(ObjectDefect defect) {
    add(defect.kind(), defect.detail());
  }

  /** Returns what was noted so far. */
  public List<Finding> findings() {
    return List.copyOf(findings);
  }
}
