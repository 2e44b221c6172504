package org.isopach.segment;

/**
 * How much each cell of a coarse frame looks like the inner limiting membrane, or like the inner
 * edge of the bright outer bands (ellipsoid zone to Bruch's membrane).
 *
 * <p>Both are differences of mean brightness over runs of tissue, not of single pixels: a thin
 * bright line in the vitreous has nothing bright below it, and the wall of a cyst has tissue above
 * it.
 */
final class RetinaEvidence {
  private static final int[] BAND_MICROMETRES = {25, 45, 60, 75};
  private static final float[] BAND_WEIGHT = {0.75f, 0.95f, 1f, 1f};
  private static final double INNER_RUN = 50;
  private static final double NEAR_RUN = 32;
  private static final double WIDE_RUN = 170;
  private static final double ONL_RUN = 56;
  private static final double CHOROID_RUN = 56;
  private static final double LEAST_RETINA = 64;
  private static final double TISSUE_FLOOR = 0.18;
  private static final double TISSUE_ALLOWED = 18;
  private static final double TISSUE_TOO_MUCH = 60;
  private static final float TISSUE_PENALTY = 0.35f;
  private static final float INNER_SHARE = 0.6f;

  private final CoarseGrid grid;
  private final float[] inner;
  private final float[] outer;

  RetinaEvidence(CoarseFrame frame) {
    this.grid = frame.grid();
    int cells = grid.columns() * grid.rows();
    this.inner = new float[cells];
    this.outer = new float[cells];
    for (int c = 0; c < grid.columns(); c++) {
      fillInner(frame, c);
      fillOuter(frame, c);
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

  private void fillInner(CoarseFrame frame, int c) {
    int rows = grid.rows();
    int run = grid.rowsIn(INNER_RUN);
    int near = grid.rowsIn(NEAR_RUN);
    int wide = grid.rowsIn(WIDE_RUN);
    double tissue = 0;
    for (int r = 0; r < rows; r++) {
      float below = frame.mean(c, r, r + run);
      float rise = below - frame.mean(c, r - near, r);
      float wideRise = below - frame.mean(c, r - wide, r);
      double excess = (tissue - TISSUE_ALLOWED) / (TISSUE_TOO_MUCH - TISSUE_ALLOWED);
      float penalty = TISSUE_PENALTY * (float) Math.min(1, Math.max(0, excess));
      inner[c * rows + r] = Math.min(rise, wideRise) - penalty;
      tissue +=
          Math.min(1, Math.max(0, frame.mean(c, r, r + 1) - TISSUE_FLOOR))
              * grid.micrometresPerRow();
    }
  }

  private void fillOuter(CoarseFrame frame, int c) {
    int rows = grid.rows();
    int onl = grid.rowsIn(ONL_RUN);
    int least = grid.rowsIn(LEAST_RETINA);
    float bestInner = -0.5f;
    for (int r = 0; r < rows; r++) {
      if (r >= least) {
        bestInner = Math.max(bestInner, inner[c * rows + r - least]);
      }
      float above = frame.mean(c, r - onl, r);
      outer[c * rows + r] = band(frame, c, r) - 0.5f * above + INNER_SHARE * bestInner;
    }
  }

  private float band(CoarseFrame frame, int c, int r) {
    int choroid = grid.rowsIn(CHOROID_RUN);
    float best = Float.NEGATIVE_INFINITY;
    for (int i = 0; i < BAND_MICROMETRES.length; i++) {
      int w = grid.rowsIn(BAND_MICROMETRES[i]);
      float value =
          BAND_WEIGHT[i] * (frame.mean(c, r, r + w) - 0.5f * frame.mean(c, r + w, r + w + choroid));
      best = Math.max(best, value);
    }
    return best;
  }
}
