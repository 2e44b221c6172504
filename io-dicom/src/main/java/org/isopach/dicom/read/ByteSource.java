package org.isopach.dicom.read;

import java.io.EOFException;
import java.io.IOException;

/** Bytes at positions, for reading only. Safe for several threads at once. */
public interface ByteSource {
  /** Returns the number of bytes. */
  long size();

  /**
   * Reads a run of bytes.
   *
   * @param position of the first byte, 0-based
   * @param into receives the bytes
   * @param offset index in {@code into} of the first byte
   * @param length how many
   * @throws EOFException when the run reaches past the end
   * @throws IOException when the bytes cannot be read
   */
  void read(long position, byte[] into, int offset, int length) throws IOException;

  /** Returns the same bytes through one open handle, which the caller closes. */
  HeldBytes hold() throws IOException;

  /** Returns a run of bytes; the same errors as {@link #read}. */
  default byte[] read(long position, int length) throws IOException {
    if (position + length > size()) {
      throw new EOFException("bytes " + position + " to " + (position + length) + " of " + size());
    }
    byte[] bytes = new byte[length];
    read(position, bytes, 0, length);
    return bytes;
  }
}
