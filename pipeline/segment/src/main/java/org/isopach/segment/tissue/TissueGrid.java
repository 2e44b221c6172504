package org.isopach.segment.tissue;

import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.scan.ScanSize;

/**
 * The shape of the picture the tissue model looks at: cells of about 8 µm of depth and 23 µm along
 * the frame, each the mean of a block of pixels. What is left over at the right and at the bottom
 * belongs to no cell.
 *
 * @param ascansPerCell A-scans averaged into one column
 * @param depthsPerCell depth pixels averaged into one row
 * @param columns columns of the picture
 * @param rows rows of the picture
 */
public record TissueGrid(int ascansPerCell, int depthsPerCell, int columns, int rows) {
  private static final double ROW_MICROMETRES = 8.0;
  private static final double COLUMN_MICROMETRES = 23.4;

  /**
   * Returns the grid of a scan.
   *
   * @param ascanMicrometres distance between A-scans
   */
  public static TissueGrid of(ScanSize size, AxialScale axial, double ascanMicrometres) {
    int deep = pixels(ROW_MICROMETRES, axial.micrometresPerPixel(), size.depths());
    int wide = pixels(COLUMN_MICROMETRES, ascanMicrometres, size.ascans());
    return new TissueGrid(wide, deep, size.ascans() / wide, size.depths() / deep);
  }

  /** Returns the number of pixels nearest to a length, from 1 to as many as there are. */
  private static int pixels(double micrometres, double spacing, int most) {
    return (int) Math.min(most, Math.max(1, Math.round(micrometres / spacing)));
  }

  /** Returns the number of cells. */
  public int cells() {
    return columns * rows;
  }

  /** Returns the depth in full-resolution pixels (0 = centre of the first) of a row's centre. */
  public double depthPx(double row) {
    return row * depthsPerCell + (depthsPerCell - 1) / 2.0;
  }

  /** Returns the row (fractional, 0 = centre of the first) of a depth in full-resolution pixels. */
  public double row(double depthPx) {
    return (depthPx - (depthsPerCell - 1) / 2.0) / depthsPerCell;
  }

  /** Returns the fractional column of an A-scan's centre, clamped to the picture. */
  public double column(int ascan) {
    double column = (ascan - (ascansPerCell - 1) / 2.0) / ascansPerCell;
    return Math.min(columns - 1, Math.max(0, column));
  }
}
