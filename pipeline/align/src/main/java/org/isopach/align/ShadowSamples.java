package org.isopach.align;

import org.isopach.analysis.geometry.ScanPath;

/** A-scans of the follow-up that are compared with the baseline: place, value, frame. */
final class ShadowSamples {
  private static final double SPACING_MM = 0.025;

  final double[] x;
  final double[] y;
  final double[] value;
  final int[] rank;
  int count;

  /**
   * @param rankOf each frame's place in the order across the scan
   * @param values of every A-scan, NaN where none
   */
  ShadowSamples(ScanPath path, int[] rankOf, double[] values) {
    this(path.frames() * (path.ascans() / step(path) + 1));
    int step = step(path);
    for (int f = 0; f < path.frames(); f++) {
      for (int a = step / 2; a < path.ascans(); a += step) {
        double v = values[f * path.ascans() + a];
        if (!Double.isNaN(v)) {
          add(path.xMm(f, a), path.yMm(f, a), v, rankOf[f]);
        }
      }
    }
  }

  private static int step(ScanPath path) {
    return (int) Math.max(1, Math.round(SPACING_MM / path.ascanSpacingMm()));
  }

  /**
   * Returns the samples on the black or on the white fields of a chequerboard.
   *
   * @param parity 0 or 1
   */
  ShadowSamples fields(int parity) {
    ShadowSamples part = new ShadowSamples(count);
    for (int i = 0; i < count; i++) {
      if (Chequers.parity(x[i], y[i]) == parity) {
        part.add(x[i], y[i], value[i], rank[i]);
      }
    }
    return part;
  }

  private ShadowSamples(int most) {
    x = new double[most];
    y = new double[most];
    value = new double[most];
    rank = new int[most];
  }

  private void add(double xMm, double yMm, double v, int frameRank) {
    x[count] = xMm;
    y[count] = yMm;
    value[count] = v;
    rank[count] = frameRank;
    count++;
  }

  /** Replaces the values by those of a map at the same places; NaN outside it. */
  ShadowSamples from(ShadowMap map) {
    for (int i = 0; i < count; i++) {
      value[i] = map.read(x[i], y[i]) ? map.value : Double.NaN;
    }
    return this;
  }
}
