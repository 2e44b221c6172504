package org.isopach.dicom.network;

import java.util.List;

/**
 * What became of the files.
 *
 * @param sent acknowledged now
 * @param sentBefore acknowledged in an earlier run, by the journal
 * @param notDicom files of other kinds, left out
 * @param failures files that were not acknowledged, each with the reason
 */
public record SendResult(int sent, int sentBefore, int notDicom, List<Failure> failures) {
  /** A file that was not acknowledged. */
  public record Failure(String file, String reason) {}

  /** Copies the list. */
  public SendResult {
    failures = List.copyOf(failures);
  }
}
