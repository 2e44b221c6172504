package org.isopach.job;

import org.isopach.analysis.finding.Finding;

/** Is told how a run goes on; for progress bars and log lines. Called from one thread. */
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
}
