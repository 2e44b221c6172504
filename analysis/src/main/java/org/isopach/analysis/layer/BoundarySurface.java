package org.isopach.analysis.layer;

import java.util.Objects;

/**
 * One boundary of one scan: a depth and a confidence for each A-scan. Immutable.
 *
 * <p>Shape {@code (frames, ascans)}. Depth is in pixels, 0 at the centre of the first pixel of the
 * A-scan, with fractions; NaN where the boundary is not there or not measurable, with the reason in
 * {@link #absence}. Confidence is from 0 to 1, 0 where the depth is NaN.
 */
public final class BoundarySurface {
  private final int frames;
  private final int ascans;
  private final float[] depthPx;
  private final float[] confidence;
  private final byte[] absence;

  /**
   * Makes a surface that does not say why depths are missing.
   *
   * @throws IllegalArgumentException as the other constructor
   */
  public BoundarySurface(int frames, int ascans, float[] depthPx, float[] confidence) {
    this(frames, ascans, depthPx, confidence, new byte[depthPx.length]);
  }

  /**
   * Makes a surface from copies of three arrays in the order {@code frame * ascans + ascan}.
   *
   * @param absence the {@link Absence#mark()} of every point; {@link Absence#NONE} at a point
   *     without depth becomes {@link Absence#UNSTATED}, and any other at a point with one {@code
   *     NONE}
   * @throws IllegalArgumentException when a length does not fit, a depth is infinite or a
   *     confidence lies outside 0 to 1
   */
  public BoundarySurface(
      int frames, int ascans, float[] depthPx, float[] confidence, byte[] absence) {
    int points = Math.multiplyExact(frames, ascans);
    if (depthPx.length != points || confidence.length != points || absence.length != points) {
      throw new IllegalArgumentException(
          "expected "
              + points
              + " values, had "
              + depthPx.length
              + ", "
              + confidence.length
              + " and "
              + absence.length);
    }
    this.frames = frames;
    this.ascans = ascans;
    this.depthPx = depthPx.clone();
    this.confidence = confidence.clone();
    this.absence = absence.clone();
    checkPoints();
  }

  private void checkPoints() {
    for (int i = 0; i < depthPx.length; i++) {
      if (Float.isInfinite(depthPx[i])) {
        throw new IllegalArgumentException("infinite depth at point " + i);
      }
      if (Float.isNaN(depthPx[i])) {
        confidence[i] = 0;
        if (Absence.ofMark(absence[i]) == Absence.NONE) {
          absence[i] = Absence.UNSTATED.mark();
        }
        continue;
      }
      absence[i] = Absence.NONE.mark();
      if (!(confidence[i] >= 0 && confidence[i] <= 1)) {
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

  /** Returns why there is no depth, {@link Absence#NONE} where there is one. */
  public Absence absence(int frame, int ascan) {
    return Absence.ofMark(absence[index(frame, ascan)]);
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
