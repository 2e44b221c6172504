package org.isopach.dicom.deidentify;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * What became of a file.
 *
 * @param source where it lies; may itself name a person, so it goes to no report file
 * @param written the new object, relative to the folder; empty when it was refused
 * @param refused why, quoting nothing of the object; empty when it was written or is not DICOM
 * @param skipped whether the file is no DICOM object
 */
public record Outcome(Path source, Optional<Path> written, String refused, boolean skipped) {
  /** Returns how many of some outcomes gave a file. */
  public static long written(List<Outcome> outcomes) {
    return outcomes.stream().filter(one -> one.written().isPresent()).count();
  }
}
