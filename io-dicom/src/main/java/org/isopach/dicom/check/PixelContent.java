package org.isopach.dicom.check;

import org.isopach.dicom.data.Tags;

/**
 * What is known of an object's pixel data, which a data set does not hold.
 *
 * @param present whether there are pixel data
 * @param nativeBytes its length in bytes when uncompressed; -1 when absent or compressed
 * @param tag of Pixel Data (7FE0,0010) or Float Pixel Data (7FE0,0008)
 */
public record PixelContent(boolean present, long nativeBytes, int tag) {
  /** Returns the content of an object without pixel data. */
  public static PixelContent none() {
    return new PixelContent(false, -1, Tags.PIXEL_DATA);
  }

  /** Returns uncompressed content of a length in bytes. */
  public static PixelContent ofBytes(long bytes) {
    if (bytes < 0) {
      throw new IllegalArgumentException("bytes must not be negative, was " + bytes);
    }
    return new PixelContent(bytes > 0, bytes, Tags.PIXEL_DATA);
  }

  /** Returns the same content as values of Float Pixel Data. */
  public PixelContent asFloats() {
    return new PixelContent(present, nativeBytes, Tags.FLOAT_PIXEL_DATA);
  }

  /** Returns content compressed in fragments, whose length tells nothing. */
  public static PixelContent compressed() {
    return new PixelContent(true, -1, Tags.PIXEL_DATA);
  }
}
