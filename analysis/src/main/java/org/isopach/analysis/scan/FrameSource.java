package org.isopach.analysis.scan;

/**
 * Reads the grey values of one frame at a time, on demand.
 *
 * <p>An implementation may be called from several threads at once and must not keep decoded frames.
 */
public interface FrameSource {
  /**
   * Fills an array with one frame's grey values, brighter tissue larger.
   *
   * @param frame 0-based frame index
   * @param into receives {@code depths * ascans} values in picture order: the value of A-scan
   *     {@code a} at depth {@code d} is {@code into[d * ascans + a]}
   * @throws FrameReadException when the frame cannot be read or decoded; the array's content is
   *     then undefined
   */
  void read(int frame, float[] into) throws FrameReadException;
}
