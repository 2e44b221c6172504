package org.isopach.dicom.network;

import java.util.List;

/**
 * What a peer commits itself to keep.
 *
 * @param committed files whose objects the peer committed itself to
 * @param failures files it did not, each with the reason
 */
public record CommitResult(int committed, List<SendResult.Failure> failures) {
  /** Copies the list. */
  public CommitResult {
    failures = List.copyOf(failures);
  }
}
