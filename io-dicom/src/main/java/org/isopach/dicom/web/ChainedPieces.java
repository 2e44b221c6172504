package org.isopach.dicom.web;

import java.io.IOException;
import java.io.InputStream;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.atomic.AtomicLong;

/** Streams one after another, each opened when the last is at its end. */
final class ChainedPieces extends InputStream {
  private final Iterator<Piece> left;
  private final AtomicLong read;
  private InputStream now = InputStream.nullInputStream();

  /** Opens a stream. */
  @FunctionalInterface
  interface Piece {
    InputStream open() throws IOException;
  }

  /**
   * Chains pieces.
   *
   * @param read is told how many bytes were read
   */
  ChainedPieces(List<Piece> pieces, AtomicLong read) {
    this.left = pieces.iterator();
    this.read = read;
  }

  @Override
  public int read() throws IOException {
    byte[] one = new byte[1];
    return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
  }

  @Override
  public int read(byte[] bytes, int offset, int length) throws IOException {
    int got = now.read(bytes, offset, length);
    while (got < 0 && left.hasNext()) {
      now.close();
      now = left.next().open();
      got = now.read(bytes, offset, length);
    }
    read.addAndGet(Math.max(0, got));
    return got;
  }

  @Override
  public void close() throws IOException {
    now.close();
  }
}
