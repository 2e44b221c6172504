package org.isopach.segment;

/**
 * One kept frame with its levels: grey values scaled so that the frame's dark is 0 and its bright
 * 1.
 */
final class FrameView {
  private final FrameStore store;
  private final int frame;
  private final int ascans;
  private final int depths;
  private final GreyLevels levels;

  FrameView(FrameStore store, int frame, int ascans, int depths, GreyLevels levels) {
    this.store = store;
    this.frame = frame;
    this.ascans = ascans;
    this.depths = depths;
    this.levels = levels;
  }

  /** Returns the number of A-scans. */
  int ascans() {
    return ascans;
  }

  /** Returns the number of depth pixels. */
  int depths() {
    return depths;
  }

  /**
   * Writes part of an A-scan into one column of a picture, interpolated linearly; beyond the frame
   * the edge pixel is repeated.
   *
   * @param ascan which A-scan; also the column written to
   * @param firstDepth depth in pixels of the first value
   * @param count number of values
   * @param into receives the values at {@code row * stride + ascan}
   * @param stride width of the picture
   */
  void column(int ascan, float firstDepth, int count, float[] into, int stride) {
    int whole = (int) Math.floor(firstDepth);
    float part = firstDepth - whole;
    float scale = 1 / Math.max(levels.contrast(), 1e-6f);
    float above = value(ascan, whole);
    for (int i = 0; i < count; i++) {
      float below = value(ascan, whole + i + 1);
      into[i * stride + ascan] = (above + part * (below - above) - levels.dark()) * scale;
      above = below;
    }
  }

  /**
   * Writes part of an A-scan into an array of its own, as {@link #column} does.
   *
   * @param ascan which A-scan
   * @param firstDepth depth in pixels of the first value
   * @param count number of values
   * @param into receives the values from index 0 on
   */
  void values(int ascan, float firstDepth, int count, float[] into) {
    int whole = (int) Math.floor(firstDepth);
    float part = firstDepth - whole;
    float scale = 1 / Math.max(levels.contrast(), 1e-6f);
    float above = value(ascan, whole);
    for (int i = 0; i < count; i++) {
      float below = value(ascan, whole + i + 1);
      into[i] = (above + part * (below - above) - levels.dark()) * scale;
      above = below;
    }
  }

  private float value(int ascan, int depth) {
    int d = depth < 0 ? 0 : Math.min(depth, depths - 1);
    return store.get(frame, d * ascans + ascan);
  }
}
