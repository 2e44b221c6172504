package org.isopach.dicom.read;

/**
 * Where the value of Pixel Data (7FE0,0010) or Float Pixel Data (7FE0,0008) lies.
 *
 * @param offset position of its first byte
 * @param length in bytes, or -1 for fragments up to a delimiter
 * @param words whether the value representation is OW (or implicit), so that big endian swaps pairs
 * @param floats whether they are Float Pixel Data, of 32 bits
 */
public record PixelLocation(long offset, long length, boolean words, boolean floats) {
  /** Returns whether the pixel data are in fragments. */
  public boolean inFragments() {
    return length < 0;
  }
}
