package org.isopach.segment;

/**
 * How much each cell of a coarse frame looks like the inner limiting membrane, or like the inner
 * edge of the bright outer bands (ellipsoid zone to Bruch's membrane).
 *
 * <p>Both are differences of mean brightness over runs of tissue, not of single pixels: a thin
 * bright line in the vitreous has nothing bright below it, and the wall of a cyst has tissue above
 * it. Beyond the picture everything counts as dark.
 */
final class RetinaEvidence {
  private static final double[] BAND_MICROMETRES = {25, 45, 60, 75};
  private static final float[] BAND_WEIGHT = {0.75f, 0.95f, 1f, 1f};
  private static final double INNER_RUN = 50;
  private static final double NEAR_RUN = 32;
  private static final double WIDE_RUN = 170;
  private static final double ONL_RUN = 56;
  private static final double CHOROID_RUN = 56;
  private static final double LEAST_RETINA = 64;
  private static final float TISSUE_FLOOR = 0.18f;
  private static final float TISSUE_ALLOWED = 18;
  private static final float TISSUE_TOO_MUCH = 60;
  private static final float TISSUE_PENALTY = 0.35f;
  private static final float INNER_SHARE = 0.6f;

  private final CoarseGrid grid;
  private final float[] inner;
  private final float[] outer;
  private final float[] sums;
  private final int lead;

  RetinaEvidence(CoarseFrame frame) {
    this.grid = frame.grid();
    int cells = grid.columns() * grid.rows();
    this.inner = new float[cells];
    this.outer = new float[cells];
    int widest = (int) BAND_MICROMETRES[BAND_MICROMETRES.length - 1];
    this.lead = grid.rowsIn(WIDE_RUN);
    this.sums = new float[lead + grid.rows() + 1 + grid.rowsIn(widest) + grid.rowsIn(CHOROID_RUN)];
    float[] column = new float[sums.length - lead];
    for (int c = 0; c < grid.columns(); c++) {
      frame.sums(c, column);
      System.arraycopy(column, 0, sums, lead, column.length);
      fillInner(c);
      fillOuter(c);
    }
  }

  /** Returns the evidence for the inner limiting membrane, index {@code column * rows + row}. */
  float[] inner() {
    return inner;
  }

  /** Returns the evidence for the outer bands' inner edge, index {@code column * rows + row}. */
  float[] outer() {
    return outer;
  }

  private void fillInner(int c) {
    int rows = grid.rows();
    int run = grid.rowsIn(INNER_RUN);
    int near = grid.rowsIn(NEAR_RUN);
    int wide = grid.rowsIn(WIDE_RUN);
    float step = (float) grid.micrometresPerRow();
    float tissue = 0;
    for (int r = 0; r < rows; r++) {
      int at = lead + r;
      float below = (sums[at + run] - sums[at]) / run;
      float nearAbove = (sums[at] - sums[at - near]) / near;
      float wideAbove = (sums[at] - sums[at - wide]) / wide;
      float excess = (tissue - TISSUE_ALLOWED) / (TISSUE_TOO_MUCH - TISSUE_ALLOWED);
      float penalty = TISSUE_PENALTY * Math.min(1, Math.max(0, excess));
      inner[c * rows + r] = below - Math.max(nearAbove, wideAbove) - penalty;
      float here = sums[at + 1] - sums[at] - TISSUE_FLOOR;
      tissue += Math.min(1, Math.max(0, here)) * step;
    }
  }

  private void fillOuter(int c) {
    int rows = grid.rows();
    int onl = grid.rowsIn(ONL_RUN);
    int least = grid.rowsIn(LEAST_RETINA);
    int choroid = grid.rowsIn(CHOROID_RUN);
    int[] widths = new int[BAND_MICROMETRES.length];
    float[] bandShare = new float[widths.length];
    float[] belowShare = new float[widths.length];
    for (int i = 0; i < widths.length; i++) {
      widths[i] = grid.rowsIn(BAND_MICROMETRES[i]);
      bandShare[i] = BAND_WEIGHT[i] / widths[i];
      belowShare[i] = 0.5f * BAND_WEIGHT[i] / choroid;
    }
    float bestInner = -0.5f;
    for (int r = 0; r < rows; r++) {
      int at = lead + r;
      if (r >= least) {
        bestInner = Math.max(bestInner, inner[c * rows + r - least]);
      }
      float best = Float.NEGATIVE_INFINITY;
      for (int i = 0; i < widths.length; i++) {
        int end = at + widths[i];
        float band = (sums[end] - sums[at]) * bandShare[i];
        float below = (sums[end + choroid] - sums[end]) * belowShare[i];
        best = Math.max(best, band - below);
      }
      float above = (sums[at] - sums[at - onl]) / onl;
      outer[c * rows + r] = best - 0.5f * above + INNER_SHARE * bestInner;
    }
  }
}
