package org.isopach.dicom.network;

/**
 * What became of an object, as a C-STORE response says it (PS3.4, B.2.3; PS3.7, annex C).
 *
 * @param code 0 for success
 * @param comment for a person, at most 64 characters; empty for success
 */
public record StoreStatus(int code, String comment) {
  static final int SUCCESS = 0;
  static final int DUPLICATE_INSTANCE = 0x0111;
  static final int INVALID_INSTANCE = 0x0117;
  static final int OUT_OF_RESOURCES = 0xA700;

  /** The data set is not what it was said to be. */
  public static final int MISMATCH = 0xA900;

  static final int NOT_UNDERSTOOD = 0xC000;
  private static final int LONGEST = 64;

  /** Cuts the comment. */
  public StoreStatus {
    comment = comment.length() > LONGEST ? comment.substring(0, LONGEST) : comment;
  }

  static StoreStatus success() {
    return new StoreStatus(SUCCESS, "");
  }

  /** Returns whether the object is kept. */
  public boolean good() {
    return code == SUCCESS;
  }
}
