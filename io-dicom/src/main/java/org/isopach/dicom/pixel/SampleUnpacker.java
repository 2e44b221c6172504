package org.isopach.dicom.pixel;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import org.isopach.analysis.scan.GreyRange;

/** Turns the bytes of one uncompressed frame into grey values, brighter larger. */
final class SampleUnpacker {
  private static final VarHandle LITTLE =
      MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.LITTLE_ENDIAN);
  private static final VarHandle BIG =
      MethodHandles.byteArrayViewVarHandle(short[].class, ByteOrder.BIG_ENDIAN);

  private final PixelFormat format;
  private final boolean bigEndian;
  private final boolean swapPairs;

  /**
   * Makes an unpacker.
   *
   * @param words whether the bytes are words in the given order also when Bits Allocated is 8
   */
  SampleUnpacker(PixelFormat format, boolean bigEndian, boolean words) {
    this.format = format;
    this.bigEndian = bigEndian;
    this.swapPairs = bigEndian && words && format.bitsAllocated() == 8;
  }

  /** Returns whether each pair of 8-bit pixels stands in reverse order. */
  boolean swapPairs() {
    return swapPairs;
  }

  /**
   * Fills {@code into} with the frame that begins at {@code offset} in {@code bytes}. With pairs
   * swapped the whole pair of the first and of the last pixel must be in {@code bytes}, and {@code
   * offset} counts pixels from an even position.
   */
  void unpack(byte[] bytes, int offset, float[] into) {
    if (format.bitsAllocated() == 8) {
      unpack8(bytes, offset, into);
    } else {
      unpack16(bytes, offset, into);
    }
  }

  private void unpack8(byte[] bytes, int offset, float[] into) {
    int n = format.framePixels();
    int flip = swapPairs ? 1 : 0;
    boolean plain = format.bitsStored() == 8 && !format.signed() && !format.inverted();
    if (plain) {
      for (int i = 0; i < n; i++) {
        into[i] = bytes[(offset + i) ^ flip] & 0xff;
      }
      return;
    }
    Meaning meaning = new Meaning(format);
    for (int i = 0; i < n; i++) {
      into[i] = meaning.grey(bytes[(offset + i) ^ flip] & 0xff);
    }
  }

  private void unpack16(byte[] bytes, int offset, float[] into) {
    int n = format.framePixels();
    VarHandle order = bigEndian ? BIG : LITTLE;
    Meaning meaning = new Meaning(format);
    for (int i = 0; i < n; i++) {
      into[i] = meaning.grey((short) order.get(bytes, offset + 2 * i) & 0xffff);
    }
  }

  /** Picks the stored bits out of a cell, extends the sign and inverts. */
  static final class Meaning {
    private final int right;
    private final int mask;
    private final int signBit;
    private final float sum;
    private final boolean inverted;

    Meaning(PixelFormat format) {
      right = format.highBit() + 1 - format.bitsStored();
      mask = (1 << format.bitsStored()) - 1;
      signBit = format.signed() ? 1 << (format.bitsStored() - 1) : 0;
      inverted = format.inverted();
      GreyRange range = format.range();
      sum = (float) (range.low() + range.high());
    }

    float grey(int cell) {
      int stored = cell >>> right & mask;
      int value = (stored ^ signBit) - signBit;
      return inverted ? sum - value : value;
    }
  }
}
