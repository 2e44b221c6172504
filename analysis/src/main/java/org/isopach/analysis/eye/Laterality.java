package org.isopach.analysis.eye;

import java.util.Optional;

/**
 * Which eye. The only place where nasal and temporal are derived from left and right.
 *
 * <p>Fundus images are seen as the examiner sees them: x grows to the right of the picture. The
 * nose is then to the right of a right eye and to the left of a left eye (DICOM PS3.17, annex
 * UU.5).
 */
public enum Laterality {
  RIGHT("R", "right", 1),
  LEFT("L", "left", -1);

  private final String code;
  private final String word;
  private final int nasalSign;

  Laterality(String code, String word, int nasalSign) {
    this.code = code;
    this.word = word;
    this.nasalSign = nasalSign;
  }

  /** Returns {@code R} or {@code L}, the value DICOM uses for Image Laterality (0020,0062). */
  public String code() {
    return code;
  }

  /** Returns {@code right} or {@code left}. */
  public String word() {
    return word;
  }

  /** Returns +1 where fundus x grows towards the nose (right eye), -1 where it grows away. */
  public int nasalSign() {
    return nasalSign;
  }

  /** Returns the other eye. */
  public Laterality other() {
    return this == RIGHT ? LEFT : RIGHT;
  }

  /**
   * Returns the eye of a DICOM laterality code, or empty for anything but {@code R} and {@code L}.
   */
  public static Optional<Laterality> ofCode(String code) {
    for (Laterality laterality : values()) {
      if (laterality.code.equals(code)) {
        return Optional.of(laterality);
      }
    }
    return Optional.empty();
  }
}
