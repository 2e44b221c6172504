package org.isopach.job.watch;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import org.isopach.dicom.network.BackOff;

/**
 * How folders are watched.
 *
 * @param folders what is watched, at least one; absolute
 * @param results where results and the journal go; neither within a watched folder nor around one
 * @param byPatient whether all studies of a patient are worked on together; else each study is
 *     worked on by itself
 * @param options what else decides the results, in words; one folder of results has one such text
 * @param every time between two looks into the folders
 * @param quiet how long a file must stay the same to count as whole, and how long nothing new must
 *     come for a study before it is worked on
 * @param retries how often work that failed is tried again, 0 or more
 * @param once whether to end when everything that was there is done, without waiting for more
 */
public record WatchSettings(
    List<Path> folders,
    Path results,
    boolean byPatient,
    String options,
    Duration every,
    Duration quiet,
    int retries,
    boolean once) {
  /** How long what failed rests before it is tried again: 1, 2, 4 … minutes, at most 60. */
  static final BackOff REST = new BackOff(Duration.ofMinutes(1), Duration.ofMinutes(60));

  public WatchSettings {
    folders = List.copyOf(folders);
    Objects.requireNonNull(results, "results");
    Objects.requireNonNull(options, "options");
    if (folders.isEmpty()) {
      throw new IllegalArgumentException("there must be a folder to watch");
    }
    if (every.isNegative() || every.isZero() || quiet.isNegative() || retries < 0) {
      throw new IllegalArgumentException("times and retries must not be negative");
    }
  }
}
