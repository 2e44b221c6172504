package org.isopach.job;

import org.isopach.analysis.finding.Finding;

/**
 * Is told how a run goes on; for progress bars and log lines. Called from one thread, but for
 * {@link #writing} and {@link #wrote}, which are called by whichever thread writes.
 */
public interface JobListener {
  /** A listener that does nothing. */
  JobListener SILENT = new JobListener() {};

  /** The inputs have been read: this many scans and maps will be measured. */
  default void found(int filesSeen, int objects) {}

  /** An object is being measured. */
  default void started(String location) {}

  /** An object is done, measured or not. */
  default void finished(String location, long millis) {}

  /** Something is to be said about an object. */
  default void finding(Finding finding) {}

  /** The calling thread begins to write something of this kind. */
  default void writing(FileKind kind) {}

  /** The calling thread has written it, or has failed to. */
  default void wrote(FileKind kind) {}
}
