package org.isopach.analysis.scan;

/**
 * The shape of a scan, in the order of its axes.
 *
 * @param frames number of B-scans, at least 1
 * @param ascans number of A-scans in each frame, at least 1
 * @param depths number of pixels along each A-scan, at least 1
 */
public record ScanSize(int frames, int ascans, int depths) {
  public ScanSize {
    if (frames < 1 || ascans < 1 || depths < 1) {
      throw new IllegalArgumentException(
          "every extent must be at least 1, was " + frames + " x " + ascans + " x " + depths);
    }
    Math.multiplyExact(ascans, depths);
    Math.multiplyExact(frames, ascans);
  }

  /** Returns the number of pixels in one frame. */
  public int framePixels() {
    return ascans * depths;
  }
}
