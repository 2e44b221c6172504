package org.isopach.dicom.network;

import java.util.regex.Pattern;

/** What UIDs look like (PS3.5, 9.1), so that they may become names of files. */
public final class Uids {
  static final String VERIFICATION = "1.2.840.10008.1.1";

  /** Storage commitment, push model, and its only instance (PS3.4, annex J; PS3.6). */
  static final String COMMITMENT = "1.2.840.10008.1.20.1";

  static final String COMMITMENT_INSTANCE = "1.2.840.10008.1.20.1.1";

  private static final String STORAGE = "1.2.840.10008.5.1.4.1.1.";
  private static final int LONGEST = 64;
  private static final Pattern FORM = Pattern.compile("[0-9]+(\\.[0-9]+)*");

  private Uids() {}

  /** Returns whether a text is digits and single dots, at most 64 of them. */
  public static boolean sound(String uid) {
    return uid.length() <= LONGEST && FORM.matcher(uid).matches();
  }

  /** Returns whether a SOP class is one of the standard's storage classes, by its root. */
  public static boolean storage(String sopClass) {
    return sound(sopClass) && sopClass.startsWith(STORAGE);
  }
}
