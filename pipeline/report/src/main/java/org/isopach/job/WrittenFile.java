package org.isopach.job;

import java.nio.file.Path;
import java.util.Objects;

/**
 * A file of a run.
 *
 * @param path where it is
 * @param sha256 digest of its bytes, 64 lower-case hexadecimal digits
 */
public record WrittenFile(Path path, String sha256) {
  public WrittenFile {
    Objects.requireNonNull(path, "path");
    Objects.requireNonNull(sha256, "sha256");
  }
}
