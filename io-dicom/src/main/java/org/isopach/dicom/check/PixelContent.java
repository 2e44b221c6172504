package org.isopach.dicom.check;

/**
 * What is known of an object's pixel data, which a data set does not hold.
 *
 * @param present whether Pixel Data (7FE0,0010) is there
 * @param nativeBytes its length in bytes when uncompressed; -1 when absent or compressed
 */
public record PixelContent(boolean present, long nativeBytes) {
  /** Returns the content of an object without pixel data. */
  public static PixelContent none() {
    return new PixelContent(false, -1);
  }

  /** Returns uncompressed content of a length in bytes. */
  public static PixelContent ofBytes(long bytes) {
    if (bytes < 0) {
      throw new IllegalArgumentException("bytes must not be negative, was " + bytes);
    }
    return new PixelContent(bytes > 0, bytes);
  }

  /** Returns content compressed in fragments, whose length tells nothing. */
  public static PixelContent compressed() {
    return new PixelContent(true, -1);
  }
}
