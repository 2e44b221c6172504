package org.isopach.job;

import java.io.IOException;
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

  /** Work that gives nothing back. */
  @FunctionalInterface
  interface Writing {
    void run() throws IOException;
  }

  /** Writes something, telling a listener when it begins and ends. */
  static void write(FileKind kind, JobListener listener, Writing work) throws IOException {
    listener.writing(kind);
    try {
      work.run();
    } finally {
      listener.wrote(kind);
    }
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
