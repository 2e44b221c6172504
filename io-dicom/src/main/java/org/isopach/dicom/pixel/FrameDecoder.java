package org.isopach.dicom.pixel;

import java.io.IOException;

/** Turns the compressed bytes of one frame into grey values. Safe for several threads at once. */
interface FrameDecoder {
  /**
   * Fills {@code into} in picture order, brighter larger.
   *
   * @throws IOException when the bytes are damaged or of another shape than promised
   */
  void decode(byte[] compressed, float[] into) throws IOException;
}
