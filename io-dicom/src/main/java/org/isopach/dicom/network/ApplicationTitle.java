package org.isopach.dicom.network;

/** Titles of application entities (PS3.5, 6.2, AE). */
public final class ApplicationTitle {
  private static final int LONGEST = 16;

  private ApplicationTitle() {}

  /**
   * Returns a title without surrounding spaces.
   *
   * @throws IllegalArgumentException when it is empty, longer than 16 characters, or has a
   *     backslash or anything but printable ASCII in it
   */
  public static String checked(String text) {
    String title = text.strip();
    if (title.isEmpty() || title.length() > LONGEST || !title.matches("[\\x20-\\x7e&&[^\\\\]]+")) {
      throw new IllegalArgumentException(
          "'" + Printable.of(text) + "' is not a title of 1 to 16 plain characters");
    }
    return title;
  }
}
