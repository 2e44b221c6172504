package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;

/**
 * Random reading of small values through one sliding buffer, for walking a header. Not safe for
 * several threads.
 */
final class ByteWindow {
  private static final int FIRST_SIZE = 4 * 1024;
  private static final int SIZE = 64 * 1024;

  private final ByteSource source;
  private byte[] buffer = new byte[0];
  private long start;

  ByteWindow(ByteSource source) {
    this.source = source;
  }

  long size() {
    return source.size();
  }

  /** Returns a 16-bit unsigned value. */
  int u16(long position, boolean bigEndian) throws IOException {
    int i = need(position, 2);
    int a = buffer[i] & 0xff;
    int b = buffer[i + 1] & 0xff;
    return bigEndian ? a << 8 | b : b << 8 | a;
  }

  /** Returns a 32-bit unsigned value. */
  long u32(long position, boolean bigEndian) throws IOException {
    long a = u16(position, bigEndian);
    long b = u16(position + 2, bigEndian);
    return bigEndian ? a << 16 | b : b << 16 | a;
  }

  /** Returns the tag at a position, {@code 0xggggeeee}. */
  int tag(long position, boolean bigEndian) throws IOException {
    return u16(position, bigEndian) << 16 | u16(position + 2, bigEndian);
  }

  /** Returns two bytes as characters. */
  String twoLetters(long position) throws IOException {
    int i = need(position, 2);
    return new String(new char[] {(char) (buffer[i] & 0xff), (char) (buffer[i + 1] & 0xff)});
  }

  /** Returns a short text without its padding of spaces and zeros. */
  String text(long position, int length) throws IOException {
    byte[] bytes = source.read(position, length);
    StringBuilder text = new StringBuilder(length);
    for (byte b : bytes) {
      if (b != 0) {
        text.append((char) (b & 0xff));
      }
    }
    return text.toString().strip();
  }

  private int need(long position, int length) throws IOException {
    if (position < start || position + length > start + buffer.length) {
      slide(position, length);
    }
    return (int) (position - start);
  }

  private void slide(long position, int length) throws IOException {
    long left = source.size() - position;
    if (position < 0 || left < length) {
      throw new EOFException("the file ends at byte " + source.size());
    }
    int want = (int) Math.min(left, buffer.length == 0 ? FIRST_SIZE : SIZE);
    byte[] fresh = want == buffer.length ? buffer : new byte[want];
    source.read(position, fresh, 0, want);
    buffer = fresh;
    start = position;
  }
}
