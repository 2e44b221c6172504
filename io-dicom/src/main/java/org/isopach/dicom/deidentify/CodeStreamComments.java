package org.isopach.dicom.deidentify;

import java.io.ByteArrayOutputStream;

/**
 * The texts a compressed frame can hold before its picture: comments and application segments of
 * JPEG and JPEG-LS (ITU-T T.81, B.2.4), comments of JPEG 2000 (ITU-T T.800, A.9.2).
 */
final class CodeStreamComments {
  private static final int JPEG_START = 0xFFD8;
  private static final int WAVELET_START = 0xFF4F;
  private static final int SCAN = 0xFFDA;
  private static final int TILE_PART = 0xFF90;
  private static final int COMMENT = 0xFFFE;
  private static final int WAVELET_COMMENT = 0xFF64;

  private CodeStreamComments() {}

  /** Returns whether a fragment begins a code stream with marker segments. */
  static boolean startsIn(byte[] fragment) {
    return fragment.length > 3
        && (u16(fragment, 0) == JPEG_START || u16(fragment, 0) == WAVELET_START);
  }

  /** Returns the bytes of all comments and application segments in front of the picture. */
  static byte[] of(byte[] fragment) {
    ByteArrayOutputStream texts = new ByteArrayOutputStream();
    int at = 2;
    while (at + 4 <= fragment.length) {
      int marker = u16(fragment, at);
      int end = at + 2 + u16(fragment, at + 2);
      if (marker == SCAN || marker == TILE_PART || marker >>> 8 != 0xff) {
        break;
      }
      boolean application = (marker & 0xfff0) == 0xffe0;
      if (application || marker == COMMENT || marker == WAVELET_COMMENT) {
        texts.write(fragment, at + 4, Math.max(0, Math.min(end, fragment.length) - at - 4));
      }
      at = Math.max(end, at + 4);
    }
    return texts.toByteArray();
  }

  private static int u16(byte[] b, int i) {
    return (b[i] & 0xff) << 8 | (b[i + 1] & 0xff);
  }
}
