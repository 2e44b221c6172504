package org.isopach.dicom.data;

import java.util.Arrays;

/** An immutable run of bytes with equality by content. */
public final class ByteString {
  private final byte[] bytes;

  private ByteString(byte[] bytes) {
    this.bytes = bytes;
  }

  /** Returns a run holding a copy of the bytes. */
  public static ByteString copyOf(byte[] bytes) {
    return new ByteString(bytes.clone());
  }

  /** Returns the number of bytes. */
  public int length() {
    return bytes.length;
  }

  /** Returns a copy of the bytes. */
  public byte[] toByteArray() {
    return bytes.clone();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof ByteString that && Arrays.equals(bytes, that.bytes);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(bytes);
  }

  @Override
  public String toString() {
    return bytes.length + " bytes";
  }
}
