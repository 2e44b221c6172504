package org.isopach.segment;

/**
 * How bright a frame is right at its top and bottom, margins passed over: the mean of its averaged
 * cells over a short run, 0 for the dark of the vitreous and 1 for the brightest layers.
 */
final class EdgeTissue {
  private final CoarseGrid grid;
  private final FrameConditioner.Margins margins;
  private final int run;
  private final float[][] sums;

  EdgeTissue(LoadedScan loaded, int frame, double runMicrometres) {
    this.grid = loaded.grid();
    this.margins = loaded.margins(frame);
    this.run = grid.rowsIn(runMicrometres);
    CoarseFrame coarse = loaded.coarse(frame, false);
    this.sums = new float[grid.columns()][grid.rows() + 1];
    for (int c = 0; c < sums.length; c++) {
      coarse.sums(c, sums[c]);
    }
  }

  /** Returns the brightness below the top of an A-scan. */
  float atTop(int ascan) {
    return mean(ascan, rowsOf(margins.top(ascan)));
  }

  /** Returns the brightness above the bottom of an A-scan. */
  float atBottom(int ascan) {
    return mean(ascan, grid.rows() - rowsOf(margins.bottom(ascan)) - run);
  }

  private int rowsOf(int pixels) {
    return (pixels + grid.depthsPerCell() - 1) / grid.depthsPerCell();
  }

  private float mean(int ascan, int row) {
    int from = Math.min(Math.max(0, row), grid.rows());
    int to = Math.min(Math.max(from, row + run), grid.rows());
    float[] column = sums[(int) Math.round(grid.column(ascan))];
    return to == from ? 0 : (column[to] - column[from]) / (to - from);
  }
}
