package org.isopach.report.picture;

import java.awt.image.BufferedImage;

/** Rows of pixels of pictures that hold one int for each, read and set without conversion. */
final class Pixels {
  private Pixels() {}

  /**
   * Reads a part of a row as red, green and blue in the lower 24 bits; what stands above them means
   * nothing unless the picture has transparency.
   *
   * @param image of type INT_RGB or INT_ARGB
   * @param into filled from its beginning to its end
   */
  static void read(BufferedImage image, int left, int row, int[] into) {
    requireInts(image);
    image.getRaster().getDataElements(left, row, into.length, 1, into);
  }

  /** Sets a part of a row. */
  static void set(BufferedImage image, int left, int row, int[] from) {
    requireInts(image);
    image.getRaster().setDataElements(left, row, from.length, 1, from);
  }

  private static void requireInts(BufferedImage image) {
    int type = image.getType();
    if (type != BufferedImage.TYPE_INT_RGB && type != BufferedImage.TYPE_INT_ARGB) {
      throw new IllegalArgumentException("a picture of type " + type + " has no int for a pixel");
    }
  }
}
