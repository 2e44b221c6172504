package org.isopach.segment;

import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.scan.ScanSize;

/**
 * The shape of the coarse picture that the plain rules look at: blocks of A-scans and depths
 * averaged into one cell of about 8 µm of depth.
 *
 * @param ascansPerCell A-scans averaged into one column
 * @param depthsPerCell depth pixels averaged into one row
 * @param columns columns of the coarse picture
 * @param rows rows of the coarse picture
 * @param micrometresPerRow depth of one row in µm
 */
record CoarseGrid(
    int ascansPerCell, int depthsPerCell, int columns, int rows, double micrometresPerRow) {
  private static final double ROW_MICROMETRES = 8.0;
  private static final int WANTED_COLUMNS = 160;

  static CoarseGrid of(ScanSize size, AxialScale axial) {
    long wanted = Math.round(ROW_MICROMETRES / axial.micrometresPerPixel());
    int fz = (int) Math.min(size.depths(), Math.max(1, wanted));
    int fx = (int) Math.max(1, Math.round((double) size.ascans() / WANTED_COLUMNS));
    return new CoarseGrid(
        fx,
        fz,
        Math.max(1, size.ascans() / fx),
        Math.max(1, size.depths() / fz),
        fz * axial.micrometresPerPixel());
  }

  /** Returns the number of rows, at least 1, that a length in µm is nearest to. */
  int rowsIn(double micrometres) {
    return (int) Math.max(1, Math.round(micrometres / micrometresPerRow));
  }

  /** Returns the fractional column of an A-scan's centre, clamped to the picture. */
  double column(int ascan) {
    double column = (ascan - (ascansPerCell - 1) / 2.0) / ascansPerCell;
    return Math.min(columns - 1, Math.max(0, column));
  }
}
