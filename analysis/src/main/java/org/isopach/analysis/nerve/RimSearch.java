package org.isopach.analysis.nerve;

/**
 * The least distance from a point to a line of heights in a radial plane.
 *
 * @param leastUm µm, positive infinity when no part of the line is known
 * @param nearestMm where along the line
 * @param hiddenUm the least distance that a part without heights, or beyond the line's end, could
 *     have
 */
record RimSearch(double leastUm, double nearestMm, double hiddenUm) {
  private static final double UM_PER_MM = 1000;

  /**
   * @param fromMm where the point lies along the line, before its end
   * @param fromUm its height
   * @param mm places along the line, growing
   * @param um heights there, NaN where none
   */
  static RimSearch from(double fromMm, double fromUm, double[] mm, double[] um) {
    double hidden = UM_PER_MM * (mm[mm.length - 1] - fromMm);
    double least = Double.POSITIVE_INFINITY;
    double nearest = Double.NaN;
    for (int k = 1; k < mm.length; k++) {
      double start = UM_PER_MM * (mm[k - 1] - fromMm);
      double end = UM_PER_MM * (mm[k] - fromMm);
      if (Double.isNaN(um[k - 1]) || Double.isNaN(um[k])) {
        hidden = Math.min(hidden, start > 0 ? start : Math.max(0, -end));
        continue;
      }
      double rise = um[k] - um[k - 1];
      double run = end - start;
      double share = -(start * run + (um[k - 1] - fromUm) * rise) / (run * run + rise * rise);
      double kept = Math.max(0, Math.min(1, share));
      double distance = Math.hypot(start + kept * run, um[k - 1] - fromUm + kept * rise);
      if (distance < least) {
        least = distance;
        nearest = mm[k - 1] + kept * (mm[k] - mm[k - 1]);
      }
    }
    return new RimSearch(least, nearest, hidden);
  }

  /** Returns whether no unknown part of the line can be nearer. */
  boolean certain() {
    return leastUm <= hiddenUm;
  }
}
