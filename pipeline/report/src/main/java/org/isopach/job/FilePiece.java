package org.isopach.job;

import java.util.Objects;
import java.util.concurrent.Callable;

/**
 * The writing of one file.
 *
 * @param kind what sort of file it is
 * @param work writes it or says why it was refused
 */
record FilePiece(FileKind kind, Callable<FileOutcome> work) {
  FilePiece {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(work, "work");
  }

  /** Returns the work, telling a listener when it begins and ends. */
  Callable<FileOutcome> heardBy(JobListener listener) {
    return () -> {
      listener.writing(kind);
      try {
        return work.call();
      } finally {
        listener.wrote(kind);
      }
    };
  }
}
