package org.isopach.job.watch;

import java.util.Objects;
import org.isopach.analysis.finding.FindingKind;

/** What a file turned out to be. */
sealed interface FileVerdict {
  /**
   * A whole object that belongs to a study.
   *
   * @param sha256 digest of the file's bytes
   * @param scan whether it is a scan or map, which alone is worth a run
   */
  record Member(String sha256, UnitKey unit, boolean scan) implements FileVerdict {
    public Member {
      Objects.requireNonNull(sha256, "sha256");
      Objects.requireNonNull(unit, "unit");
    }
  }

  /** A file that is not worked on unless its content changes. */
  record LeftOut(String sha256, FindingKind kind, String detail) implements FileVerdict {
    public LeftOut {
      Objects.requireNonNull(sha256, "sha256");
      Objects.requireNonNull(kind, "kind");
      Objects.requireNonNull(detail, "detail");
    }
  }

  /** A file that ends too early or cannot be read for now: it is looked at again. */
  record Waiting(FindingKind kind, String detail) implements FileVerdict {
    public Waiting {
      Objects.requireNonNull(kind, "kind");
      Objects.requireNonNull(detail, "detail");
    }
  }
}
