package org.isopach.analysis.layer;

import java.util.Objects;

/**
 * One boundary of one scan: a depth and a confidence for each A-scan. Immutable.
 *
 * <p>Shape {@code (frames, ascans)}. Depth is in pixels, 0 at the centre of the first pixel of the
 * A-scan, with fractions; NaN where the boundary is not there or not measurable. Confidence is from
 * 0 to 1, 0 where the depth is NaN.
 */
public final class BoundarySurface {
  private final int frames;
  private final int ascans;
  private final float[] depthPx;
  private final float[] confidence;

  /**
   * Makes a surface from copies of two arrays in the order {@code frame * ascans + ascan}.
   *
   * @throws IllegalArgumentException when a length does not fit, a depth is infinite or a
   *     confidence lies outside 0 to 1
   */
  public BoundarySurface(int frames, int ascans, float[] depthPx, float[] confidence) {
    int points = Math.multiplyExact(frames, ascans);
    if (depthPx.length != points || confidence.length != points) {
      throw new IllegalArgumentException(
          "expected " + points + " values, had " + depthPx.length + " and " + confidence.length);
    }
    this.frames = frames;
    this.ascans = ascans;
    this.depthPx = depthPx.clone();
    this.confidence = confidence.clone();
    for (int i = 0; i < points; i++) {
      if (Float.isInfinite(depthPx[i])) {
        throw new IllegalArgumentException("infinite depth at point " + i);
      }
      if (Float.isNaN(depthPx[i])) {
        this.confidence[i] = 0;
      } else if (!(confidence[i] >= 0 && confidence[i] <= 1)) {
        throw new IllegalArgumentException(
            "confidence must be from 0 to 1, was " + confidence[i] + " at point " + i);
      }
    }
  }

  /** Returns the number of frames. */
  public int frames() {
    return frames;
  }

  /** Returns the number of A-scans in each frame. */
  public int ascans() {
    return ascans;
  }

  /** Returns the depth in pixels (0 = centre of the first pixel), NaN where there is none. */
  public float depthPx(int frame, int ascan) {
    return depthPx[index(frame, ascan)];
  }

  /** Returns the confidence from 0 to 1, 0 where there is no depth. */
  public float confidence(int frame, int ascan) {
    return confidence[index(frame, ascan)];
  }

  /** Returns the share of A-scans that have a depth, from 0 to 1. */
  public double coveredFraction() {
    int found = 0;
    for (float depth : depthPx) {
      if (!Float.isNaN(depth)) {
        found++;
      }
    }
    return (double) found / depthPx.length;
  }

  private int index(int frame, int ascan) {
    Objects.checkIndex(frame, frames);
    Objects.checkIndex(ascan, ascans);
    return frame * ascans + ascan;
  }
}
