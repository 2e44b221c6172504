package org.isopach.report.table;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;

/**
 * Writes ASCII text and numbers with a fixed count of decimals, fast and free of any locale.
 *
 * <p>Made for tables of a hundred thousand rows. A number is rounded half to even from its exact
 * binary value, as {@code new BigDecimal(value).setScale(decimals, HALF_EVEN)} does: a float has 24
 * significant bits and 1000 has 10, so their product is exact in a double. A value that rounds to
 * zero has no sign.
 */
final class DecimalBytes {
  private static final int[] TEN = {1, 10, 100, 1000};
  private static final float LIMIT = 1e9f;
  private static final int ROOM_FOR_NUMBER = 24;

  private final OutputStream out;
  private final byte[] buffer = new byte[1 << 13];
  private int used;

  DecimalBytes(OutputStream out) {
    this.out = out;
  }

  /**
   * Writes a number.
   *
   * @param decimals digits after the point, 0 to 3
   * @throws IllegalArgumentException when the value is NaN or not within ±10⁹
   */
  void number(float value, int decimals) throws IOException {
    if (!(Math.abs(value) < LIMIT)) {
      throw new IllegalArgumentException("not a number for a table: " + value);
    }
    long scaled = (long) Math.rint((double) value * TEN[decimals]);
    makeRoom(ROOM_FOR_NUMBER);
    if (scaled < 0) {
      buffer[used++] = '-';
      scaled = -scaled;
    }
    digits(scaled / TEN[decimals]);
    if (decimals > 0) {
      buffer[used++] = '.';
      int rest = (int) (scaled % TEN[decimals]);
      for (int d = decimals - 1; d >= 0; d--) {
        buffer[used++] = (byte) ('0' + rest / TEN[d] % 10);
      }
    }
  }

  /** Writes a count, 0 or larger. */
  void count(int value) throws IOException {
    makeRoom(ROOM_FOR_NUMBER);
    digits(value);
  }

  /** Writes one ASCII character. */
  void symbol(char c) throws IOException {
    makeRoom(1);
    buffer[used++] = (byte) c;
  }

  /** Writes a short ASCII text. */
  void text(byte[] ascii) throws IOException {
    makeRoom(ascii.length);
    System.arraycopy(ascii, 0, buffer, used, ascii.length);
    used += ascii.length;
  }

  /** Hands everything to the stream; it is not closed. */
  void flush() throws IOException {
    out.write(buffer, 0, used);
    used = 0;
  }

  static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  private void digits(long value) {
    int from = used;
    long rest = value;
    do {
      buffer[used++] = (byte) ('0' + rest % 10);
      rest /= 10;
    } while (rest > 0);
    for (int i = from, j = used - 1; i < j; i++, j--) {
      byte swap = buffer[i];
      buffer[i] = buffer[j];
      buffer[j] = swap;
    }
  }

  private void makeRoom(int bytes) throws IOException {
    if (bytes > buffer.length - used) {
      flush();
    }
  }
}
