package org.isopach.job.watch;

import java.nio.file.Path;
import java.util.List;
import org.isopach.job.JobListener;

/** The work on one unit. */
@FunctionalInterface
public interface UnitWork {
  /**
   * Does it. Whatever fails is in the result.
   *
   * @param inputs the unit's files, each content once
   * @param out an empty folder for the results
   * @throws InterruptedException when the calling thread is interrupted
   */
  WorkResult run(List<Path> inputs, Path out, JobListener listener) throws InterruptedException;
}
