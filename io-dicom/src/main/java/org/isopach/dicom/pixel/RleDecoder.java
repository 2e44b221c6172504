package org.isopach.dicom.pixel;

import java.io.IOException;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.read.ObjectDefect;

/**
 * Decodes RLE frames (DICOM PS3.5, annex G): one segment of packed bits for each byte of a cell,
 * the most significant byte first.
 */
final class RleDecoder implements FrameDecoder {
  private static final int HEADER = 64;

  /** Two bytes make at most 128. */
  private static final int MOST_EXPANSION = 64;

  private final PixelFormat format;
  private final SampleUnpacker unpacker;

  RleDecoder(PixelFormat format) {
    this.format = format;
    this.unpacker = new SampleUnpacker(format, true, false);
  }

  @Override
  public void decode(byte[] compressed, float[] into) throws IOException {
    int segments = format.bitsAllocated() / 8;
    if (compressed.length < HEADER || u32(compressed, 0) != segments) {
      throw new IOException("the RLE header does not promise " + segments + " segments");
    }
    byte[] cells = new byte[(int) format.frameBytes()];
    for (int s = 0; s < segments; s++) {
      long start = u32(compressed, 4 + 4 * s);
      long end = s + 1 < segments ? u32(compressed, 8 + 4 * s) : compressed.length;
      if (start < HEADER || start > end || end > compressed.length) {
        throw new IOException("RLE segment " + (s + 1) + " lies outside the frame");
      }
      unpackBits(compressed, (int) start, (int) end, cells, s, segments);
    }
    unpacker.unpack(cells, 0, into);
  }

  @Override
  public void checkPromise(byte[] compressed) throws ObjectDefect {
    if ((long) compressed.length * MOST_EXPANSION < format.frameBytes()) {
      throw new ObjectDefect(
          FindingKind.PIXEL_DATA_SHORT,
          "an RLE frame of "
              + compressed.length
              + " bytes cannot unpack to the promised "
              + format.frameBytes());
    }
  }

  private static void unpackBits(byte[] in, int start, int end, byte[] out, int first, int step)
      throws IOException {
    int at = start;
    int to = first;
    while (to < out.length) {
      if (at >= end) {
        throw new IOException("an RLE segment ends early");
      }
      int control = in[at++];
      if (control == -128) {
        continue;
      }
      boolean run = control < 0;
      int n = run ? 1 - control : control + 1;
      if (at + (run ? 1 : n) > end) {
        throw new IOException("an RLE segment ends early");
      }
      for (int i = 0; i < n && to < out.length; i++, to += step) {
        out[to] = in[run ? at : at + i];
      }
      at += run ? 1 : n;
    }
  }

  private static long u32(byte[] b, int i) {
    return (b[i] & 0xffL)
        | (b[i + 1] & 0xffL) << 8
        | (b[i + 2] & 0xffL) << 16
        | (b[i + 3] & 0xffL) << 24;
  }
}
