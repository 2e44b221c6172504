package org.isopach.dicom.read;

import java.io.IOException;
import java.util.Arrays;
import java.util.Optional;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.dicom.data.Dataset;

/** Compares two objects by their attributes and pixel data, whatever the files around them. */
final class ContentComparison {
  private static final int CHUNK = 1 << 20;
  private static final int DERIVATION_DESCRIPTION = 0x00082111;

  private ContentComparison() {}

  /**
   * Returns whether all attributes that are read and the pixel data are equal: their bytes in one
   * transfer syntax, the grey values of every frame across two. Private attributes, the file meta
   * information and what follows Pixel Data do not count.
   */
  static boolean same(ParsedObject a, ParsedObject b) throws IOException {
    if (a.syntax() == b.syntax()) {
      return a.attributes().equals(b.attributes()) && samePixels(a, b);
    }
    boolean noPixels = a.pixels().isEmpty() && b.pixels().isEmpty();
    return besideCoding(a).equals(besideCoding(b)) && (noPixels || sameGreyValues(a, b));
  }

  /** Tools that recode an object may say so in its Derivation Description and keep its UID. */
  private static Dataset besideCoding(ParsedObject object) {
    return object.attributes().toBuilder().remove(DERIVATION_DESCRIPTION).build();
  }

  private static boolean sameGreyValues(ParsedObject a, ParsedObject b) throws IOException {
    Optional<ObjectPixels> pa = ObjectPixels.ifReadable(a);
    Optional<ObjectPixels> pb = ObjectPixels.ifReadable(b);
    if (pa.isEmpty() || pb.isEmpty()) {
      return false;
    }
    float[] greyA = pa.get().room();
    float[] greyB = pb.get().room();
    for (int f = 0; f < pa.get().count(); f++) {
      try {
        pa.get().frames().read(f, greyA);
        pb.get().frames().read(f, greyB);
      } catch (FrameReadException e) {
        return false;
      }
      if (!Arrays.equals(greyA, greyB)) {
        return false;
      }
    }
    return true;
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
