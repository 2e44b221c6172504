package org.isopach.job.watch;

import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** Names that programs give to what is not yet, or not meant, to be read; common practice. */
final class TemporaryNames {
  private static final List<String> ENDINGS =
      List.of(".part", ".partial", ".incomplete", ".tmp", ".temp", ".lock", "~");

  private TemporaryNames() {}

  /** Returns whether a file or folder is hidden or has a temporary name. */
  static boolean temporary(Path path) {
    String name = path.getFileName().toString().toLowerCase(Locale.ROOT);
    return name.startsWith(".")
        || name.startsWith("~")
        || ENDINGS.stream().anyMatch(name::endsWith);
  }
}
