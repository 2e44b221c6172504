package org.isopach.job;

import java.nio.file.Path;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;

/**
 * What became of writing one file.
 *
 * @param file the file; empty when it was refused
 * @param finding why it was refused; empty when it was written
 */
record FileOutcome(Optional<WrittenFile> file, Optional<Finding> finding) {
  FileOutcome {
    Objects.requireNonNull(file, "file");
    Objects.requireNonNull(finding, "finding");
  }

  static FileOutcome written(Path path, String sha256) {
    return new FileOutcome(Optional.of(new WrittenFile(path, sha256)), Optional.empty());
  }

  static FileOutcome refused(Finding why) {
    return new FileOutcome(Optional.empty(), Optional.of(why));
  }
}
