package org.isopach.dicom.read;

import java.io.IOException;
import java.util.Arrays;
import java.util.Optional;

/** Compares two objects by their attributes and pixel data, whatever the files around them. */
final class ContentComparison {
  private static final int CHUNK = 1 << 20;

  private ContentComparison() {}

  /**
   * Returns whether all attributes that are read and the bytes of the pixel data are equal. Private
   * attributes, the file meta information and what follows Pixel Data do not count. Objects in
   * different transfer syntaxes count as different.
   */
  static boolean same(ParsedObject a, ParsedObject b) throws IOException {
    return a.syntax() == b.syntax() && a.attributes().equals(b.attributes()) && samePixels(a, b);
  }

  private static boolean samePixels(ParsedObject a, ParsedObject b) throws IOException {
    Optional<PixelLocation> pa = a.pixels();
    Optional<PixelLocation> pb = b.pixels();
    if (pa.isEmpty() || pb.isEmpty()) {
      return pa.isEmpty() && pb.isEmpty();
    }
    long length = length(a, pa.get());
    if (length != length(b, pb.get())) {
      return false;
    }
    for (long at = 0; at < length; at += CHUNK) {
      int n = (int) Math.min(CHUNK, length - at);
      byte[] bytesA = a.source().read(pa.get().offset() + at, n);
      byte[] bytesB = b.source().read(pb.get().offset() + at, n);
      if (!Arrays.equals(bytesA, bytesB)) {
        return false;
      }
    }
    return true;
  }

  private static long length(ParsedObject object, PixelLocation pixels) {
    return pixels.inFragments() ? object.source().size() - pixels.offset() : pixels.length();
  }
}
