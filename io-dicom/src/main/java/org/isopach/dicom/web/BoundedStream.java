package org.isopach.dicom.web;

import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;

/** Counts what is read, and ends with a failure where there is more than there may be. */
final class BoundedStream extends FilterInputStream {
  private final long most;
  private final String what;
  private long count;

  /**
   * Bounds a stream.
   *
   * @param most bytes
   * @param what is read, for the message
   */
  BoundedStream(InputStream in, long most, String what) {
    super(in);
    this.most = most;
    this.what = what;
  }

  /** Returns how many bytes were read. */
  long count() {
    return count;
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] bytes, int offset, int length) throws IOException {
    int got = in.read(bytes, offset, length);
    count += Math.max(0, got);
    if (count > most) {
      throw WebException.last(what + " is longer than " + most + " bytes");
    }
    return got;
  }

  @Override
  public long skip(long bytes) throws IOException {
    byte[] away = new byte[(int) Math.min(bytes, 8192)];
    return Math.max(0, read(away, 0, away.length));
  }

  @Override
  public boolean markSupported() {
    return false;
  }
}
