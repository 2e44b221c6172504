package org.isopach.dicom.codec;

import java.io.IOException;

/**
 * What a compressed frame says of its picture, read by us before a library sees the frame.
 *
 * @param width in pixels, at least 1
 * @param height in pixels, at least 1
 * @param components samples of a pixel, at least 1
 * @param bits of a sample, 1 to 38
 * @param signed whether samples are two's complement
 */
public record StreamHeader(int width, int height, int components, int bits, boolean signed) {
  private static final int JPEG_START = 0xFFD8;
  private static final int JPEG_LS_FRAME = 0xFFF7;
  private static final int JPEG_SCAN = 0xFFDA;
  private static final long WAVELET_START_AND_SIZE = 0xFF4FFF51L;
  private static final int SIZE_BYTES = 38;
  private static final int MOST_TILES = 65_535;

  /**
   * Reads the header of a frame.
   *
   * @throws IOException when there is none or it contradicts itself
   */
  public static StreamHeader of(NativeCodec codec, byte[] frame) throws IOException {
    try {
      return codec == NativeCodec.CHARLS ? ofJpegLs(frame) : ofWavelet(frame);
    } catch (ArrayIndexOutOfBoundsException e) {
      throw new IOException("the frame ends within its header", e);
    }
  }

  /** Goes from marker to marker up to SOF55 (ISO/IEC 14495-1, C.2.2). */
  private static StreamHeader ofJpegLs(byte[] b) throws IOException {
    if (u16(b, 0) != JPEG_START) {
      throw new IOException("the frame is no JPEG-LS picture");
    }
    int at = 2;
    while (u16(b, at) != JPEG_LS_FRAME) {
      boolean marker = (b[at] & 0xff) == 0xff && u16(b, at) != JPEG_SCAN;
      int length = u16(b, at + 2);
      if (!marker || length < 2) {
        throw new IOException("the frame is no JPEG-LS picture");
      }
      at += 2 + length;
    }
    return sound(u16(b, at + 7), u16(b, at + 5), b[at + 9] & 0xff, b[at + 4] & 0xff, false);
  }

  /** Reads SIZ, which comes first (ISO/IEC 15444-1, A.5.1). */
  private static StreamHeader ofWavelet(byte[] b) throws IOException {
    if (u32(b, 0) != WAVELET_START_AND_SIZE) {
      throw new IOException("the frame is no JPEG 2000 codestream");
    }
    long width = u32(b, 8) - u32(b, 16);
    long height = u32(b, 12) - u32(b, 20);
    long tileWidth = u32(b, 24);
    long tileHeight = u32(b, 28);
    int components = u16(b, 40);
    int depth = b[42] & 0xff;
    boolean whole = b[43] == 1 && b[44] == 1;
    if (u16(b, 4) != SIZE_BYTES + 3 * components || !whole || width < 1 || height < 1) {
      throw new IOException("the size of the JPEG 2000 picture is impossible");
    }
    if (tileWidth < 1
        || tileHeight < 1
        || tiles(u32(b, 8), u32(b, 32), tileWidth) * tiles(u32(b, 12), u32(b, 36), tileHeight)
            > MOST_TILES) {
      throw new IOException("the tiles of the JPEG 2000 picture are impossible");
    }
    return sound(width, height, components, (depth & 0x7f) + 1, depth > 0x7f);
  }

  private static long tiles(long end, long start, long size) {
    return (Math.max(0, end - start) + size - 1) / size;
  }

  private static StreamHeader sound(
      long width, long height, int components, int bits, boolean signed) throws IOException {
    if (width < 1 || height < 1 || width > 65_535 || height > 65_535 || components < 1) {
      throw new IOException("a compressed picture of " + height + " x " + width + " pixels");
    }
    return new StreamHeader((int) width, (int) height, components, bits, signed);
  }

  private static int u16(byte[] b, int i) {
    return (b[i] & 0xff) << 8 | (b[i + 1] & 0xff);
  }

  private static long u32(byte[] b, int i) {
    return (long) u16(b, i) << 16 | u16(b, i + 2);
  }
}
