package org.isopach.segment;

import org.isopach.analysis.scan.GreyRange;

/**
 * The grey values of a scan's frames in 8 bits (16 where the source has more than 256 greys), so
 * that a frame is decoded once and looked at twice.
 *
 * <p>Each frame is written by one thread before any reads it. Values come back as floats in the
 * object's grey units; a 16-bit source is kept to 1/65535 of its range, an 8-bit one exactly.
 */
final class FrameStore {
  private final int pixels;
  private final GreyRange range;
  private final byte[][] bytes;
  private final short[][] shorts;
  private final boolean narrow;

  FrameStore(int frames, int pixels, GreyRange range) {
    this.pixels = pixels;
    this.range = range;
    this.narrow = range.high() - range.low() <= 255;
    this.bytes = narrow ? new byte[frames][] : new byte[0][];
    this.shorts = narrow ? new short[0][] : new short[frames][];
  }

  /** Keeps a frame. */
  void put(int frame, float[] values) {
    if (narrow) {
      byte[] kept = new byte[pixels];
      float low = (float) range.low();
      for (int i = 0; i < pixels; i++) {
        kept[i] = (byte) (int) (values[i] - low + 0.5f);
      }
      bytes[frame] = kept;
    } else {
      short[] kept = new short[pixels];
      float low = (float) range.low();
      float scale = (float) (65535.0 / (range.high() - range.low()));
      for (int i = 0; i < pixels; i++) {
        kept[i] = (short) (int) ((values[i] - low) * scale + 0.5f);
      }
      shorts[frame] = kept;
    }
  }

  /** Returns whether the frame was kept. */
  boolean has(int frame) {
    return narrow ? bytes[frame] != null : shorts[frame] != null;
  }

  /** Returns one grey value of a kept frame, by its index in the picture. */
  float get(int frame, int index) {
    if (narrow) {
      return (bytes[frame][index] & 0xff) + (float) range.low();
    }
    float scale = (float) ((range.high() - range.low()) / 65535.0);
    return (shorts[frame][index] & 0xffff) * scale + (float) range.low();
  }
}
