package org.isopach.dicom.read;

import org.isopach.dicom.data.Tags;

/**
 * Where the value of Pixel Data (7FE0,0010), or of its forms for floating point, lies.
 *
 * @param offset position of its first byte
 * @param length in bytes, or -1 for fragments up to a delimiter
 * @param words whether the value representation is OW (or implicit), so that big endian swaps pairs
 * @param tag which of the three attributes it is
 */
public record PixelLocation(long offset, long length, boolean words, int tag) {
  /** Returns whether they are Float Pixel Data, of 32 bits. */
  public boolean floats() {
    return tag == Tags.FLOAT_PIXEL_DATA;
  }

  /** Returns whether the pixel data are in fragments. */
  public boolean inFragments() {
    return length < 0;
  }
}
