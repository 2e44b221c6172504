package org.isopach.dicom.read;

import java.util.Locale;

/** Tags that give a file its structure (DICOM PS3.6, chapters 6 and 7; PS3.5, section 7.5). */
public final class Tag {
  public static final int MEDIA_SOP_CLASS_UID = 0x00020002;
  public static final int TRANSFER_SYNTAX_UID = 0x00020010;
  public static final int ICON_IMAGE_SEQUENCE = 0x00880200;
  public static final int ITEM = 0xFFFEE000;
  public static final int ITEM_END = 0xFFFEE00D;
  public static final int SEQUENCE_END = 0xFFFEE0DD;

  private Tag() {}

  /** Returns a tag as the standard writes it, for example {@code (0028,0030)}. */
  public static String name(int tag) {
    return String.format(Locale.ROOT, "(%04X,%04X)", tag >>> 16, tag & 0xffff);
  }
}
