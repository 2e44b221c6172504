package org.isopach.dicom.pixel;

import java.io.IOException;
import org.isopach.dicom.read.ObjectDefect;

/** Turns the compressed bytes of one frame into grey values. Safe for several threads at once. */
interface FrameDecoder {
  /**
   * Fills {@code into} in picture order, brighter larger.
   *
   * @throws IOException when the bytes are damaged or of another shape than promised
   */
  void decode(byte[] compressed, float[] into) throws IOException;

  /**
   * Checks, without decoding, that a frame can hold as many pixels as Rows and Columns promise, so
   * that nobody makes room for pixels that are not there. A damaged frame passes.
   *
   * @throws ObjectDefect when it cannot
   */
  void checkPromise(byte[] compressed) throws ObjectDefect;
}
