package org.isopach.dicom.network;

/** Text of a peer, made fit for a line of a log. */
public final class Printable {
  private static final int LONGEST = 64;

  private Printable() {}

  /** Returns a text with everything but printable ASCII as a question mark. */
  public static String of(String text) {
    String plain = text.replaceAll("[^\\x20-\\x7e]", "?");
    return plain.length() > LONGEST ? plain.substring(0, LONGEST) : plain;
  }
}
