package org.isopach.report.picture;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import java.util.zip.Deflater;

/**
 * The pixels of a picture as bytes red, green, blue, row by row from the top, packed as zlib does
 * (RFC 1950). Rows are packed as they are: of maps with shades and fine lines the differences
 * between neighbours pack worse than the pixels, and take longer.
 */
public final class PackedPixels {
  private static final int CHANNELS = 3;

  /** Level of zlib; higher ones take twice the time for a tenth of the bytes. */
  private static final int LEVEL = 3;

  private static final int BUFFER_BYTES = 1 << 16;

  private PackedPixels() {}

  /** Returns the packed pixels of a picture; transparency, if it has any, is left out. */
  public static byte[] of(BufferedImage image) {
    Deflater deflater = new Deflater(LEVEL);
    try {
      deflater.setInput(rows(image));
      deflater.finish();
      byte[] packed = new byte[BUFFER_BYTES];
      int length = 0;
      while (!deflater.finished()) {
        if (length == packed.length) {
          packed = Arrays.copyOf(packed, 2 * length);
        }
        length += deflater.deflate(packed, length, packed.length - length);
      }
      return Arrays.copyOf(packed, length);
    } finally {
      deflater.end();
    }
  }

  private static byte[] rows(BufferedImage image) {
    int width = image.getWidth();
    int[] line = new int[width];
    byte[] rows = new byte[Math.multiplyExact(CHANNELS * width, image.getHeight())];
    int at = 0;
    for (int row = 0; row < image.getHeight(); row++) {
      Pixels.read(image, 0, row, line);
      for (int pixel : line) {
        rows[at++] = (byte) (pixel >> 16);
        rows[at++] = (byte) (pixel >> 8);
        rows[at++] = (byte) pixel;
      }
    }
    return rows;
  }
}
