package org.isopach.analysis.geometry;

import java.util.Objects;

/**
 * What fundus coordinates are counted from.
 *
 * @param kind the sort of frame
 * @param uid UID of the reference image or of the frame of reference; never null, may be empty
 */
public record FundusFrame(Kind kind, String uid) {
  /** The sorts of origin a fundus coordinate can have. */
  public enum Kind {
    /** Origin: the outer corner of the top left pixel of a fundus image. */
    REFERENCE_IMAGE,
    /** Origin: that of the patient-relative coordinate system; fundus x = +X, fundus y = -Z. */
    PATIENT
  }

  public FundusFrame {
    Objects.requireNonNull(kind, "kind");
    Objects.requireNonNull(uid, "uid");
  }
}
