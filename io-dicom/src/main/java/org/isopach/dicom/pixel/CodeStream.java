package org.isopach.dicom.pixel;

import org.isopach.dicom.data.TransferSyntax;

/** What compressed frames begin with. */
final class CodeStream {
  private static final int JPEG_START = 0xFFD8;
  private static final int JPEG_2000_START = 0xFF4F;

  private CodeStream() {}

  /**
   * Returns the first two bytes of a frame: SOI (ITU-T T.81, B.1) or SOC (ITU-T T.800, A.4), or 0
   * when frames begin with no marker (RLE).
   */
  static int firstMarker(TransferSyntax syntax) {
    return switch (syntax) {
      case JPEG_BASELINE, JPEG_LOSSLESS, JPEG_LOSSLESS_SV1, JPEG_LS_LOSSLESS, JPEG_LS -> JPEG_START;
      case JPEG_2000, JPEG_2000_LOSSLESS, HTJ2K_LOSSLESS, HTJ2K_LOSSLESS_RPCL, HTJ2K ->
          JPEG_2000_START;
      default -> 0;
    };
  }
}
