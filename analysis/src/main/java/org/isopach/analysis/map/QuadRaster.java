package org.isopach.analysis.map;

/**
 * Draws quadrilaterals of four known values onto a lattice.
 *
 * <p>A quadrilateral is cut into four triangles that meet in the mean of its corners; each is
 * linear. So planes are reproduced on any quadrilateral, the surface is continuous across shared
 * sides, and no diagonal is preferred. Where a cell centre falls into several triangles (on a
 * shared side, or where frames overlap) their values are averaged. Sums are kept in whole numbers
 * of 2^-24 µm and every formula is symmetric in the corners, so that neither the order of drawing
 * nor a mirror image changes a bit of the result.
 *
 * <p>Not safe for use by several threads.
 */
final class QuadRaster implements QuadTaker {
  private static final int CORNERS = 4;
  private static final double UNITS_PER_MICROMETRE = 1 << 24;

  /** Slack of the inside test, mm²: about 1e-10 mm for sides of 0.01 mm. */
  private static final double SLACK = 1e-12;

  /**
   * Twice the area in mm² below which a triangle counts as a line and is left to its neighbours.
   */
  private static final double FLAT = 1e-9;

  private final MapLattice lattice;
  private final double[] columnX;
  private final double[] rowY;
  private final long[] sums;
  private final int[] hits;

  private final double[] x = new double[CORNERS + 1];
  private final double[] y = new double[CORNERS + 1];
  private final double[] value = new double[CORNERS + 1];
  private final double[] dx = new double[CORNERS + 1];
  private final double[] dy = new double[CORNERS + 1];
  private final double[] side = new double[CORNERS];
  private final double[] spoke = new double[CORNERS];

  QuadRaster(MapLattice lattice) {
    this.lattice = lattice;
    this.columnX = new double[lattice.columns()];
    this.rowY = new double[lattice.rows()];
    for (int c = 0; c < columnX.length; c++) {
      columnX[c] = lattice.xMm(c);
    }
    for (int r = 0; r < rowY.length; r++) {
      rowY[r] = lattice.yMm(r);
    }
    this.sums = new long[lattice.cells()];
    this.hits = new int[lattice.cells()];
  }

  @Override
  public void corner(int index, double xMm, double yMm, double micrometres) {
    x[index] = xMm;
    y[index] = yMm;
    value[index] = micrometres;
  }

  @Override
  public void draw() {
    x[CORNERS] = middle(x);
    y[CORNERS] = middle(y);
    value[CORNERS] = middle(value);
    int firstColumn = firstIndex(Math.min(least(x), x[3]), lattice.firstXMm());
    int lastColumn = lastIndex(Math.max(most(x), x[3]), lattice.firstXMm(), columnX.length);
    int firstRow = firstIndex(Math.min(least(y), y[3]), lattice.firstYMm());
    int lastRow = lastIndex(Math.max(most(y), y[3]), lattice.firstYMm(), rowY.length);
    if (firstColumn > lastColumn || firstRow > lastRow) {
      return;
    }
    double turn = commonTurn();
    for (int row = firstRow; row <= lastRow; row++) {
      for (int column = firstColumn; column <= lastColumn; column++) {
        if (approach(columnX[column], rowY[row], turn)) {
          addTriangles(row * columnX.length + column);
        }
      }
    }
  }

  /** Returns the mean of all values drawn on each cell in µm, NaN where none was. */
  float[] means() {
    float[] means = new float[sums.length];
    for (int i = 0; i < means.length; i++) {
      means[i] = hits[i] == 0 ? Float.NaN : (float) (sums[i] / (hits[i] * UNITS_PER_MICROMETRE));
    }
    return means;
  }

  /** Sets the corners relative to a point; returns false when the point is surely outside. */
  private boolean approach(double px, double py, double turn) {
    for (int k = 0; k <= CORNERS; k++) {
      dx[k] = x[k] - px;
      dy[k] = y[k] - py;
    }
    for (int k = 0; k < CORNERS; k++) {
      side[k] = cross(k, (k + 1) % CORNERS);
      if (side[k] * turn < -SLACK) {
        return false;
      }
    }
    for (int k = 0; k < CORNERS; k++) {
      spoke[k] = cross(k, CORNERS);
    }
    return true;
  }

  private void addTriangles(int cell) {
    for (int k = 0; k < CORNERS; k++) {
      int next = (k + 1) % CORNERS;
      double a = spoke[next];
      double b = -spoke[k];
      double c = side[k];
      double area = (a + b) + c;
      double sign = Math.signum(area);
      if (Math.abs(area) > FLAT && sign * a >= -SLACK && sign * b >= -SLACK && sign * c >= -SLACK) {
        double here = ((a * value[k] + b * value[next]) + c * value[CORNERS]) / area;
        sums[cell] += (long) Math.rint(here * UNITS_PER_MICROMETRE);
        hits[cell]++;
      }
    }
  }

  /** Returns the sign shared by the areas of all four triangles, 0 when they differ. */
  private double commonTurn() {
    approachOrigin();
    double common = 0;
    for (int k = 0; k < CORNERS; k++) {
      double area = (spoke[(k + 1) % CORNERS] - spoke[k]) + side[k];
      double sign = Math.abs(area) > FLAT ? Math.signum(area) : 0;
      if (sign == 0 || (k > 0 && sign != common)) {
        return 0;
      }
      common = sign;
    }
    return common;
  }

  private void approachOrigin() {
    approach(x[CORNERS], y[CORNERS], 0);
  }

  private double cross(int i, int j) {
    return dx[i] * dy[j] - dy[i] * dx[j];
  }

  private static double middle(double[] corners) {
    return ((corners[0] + corners[1]) + (corners[2] + corners[3])) / CORNERS;
  }

  private static double least(double[] corners) {
    return Math.min(Math.min(corners[0], corners[1]), corners[2]);
  }

  private static double most(double[] corners) {
    return Math.max(Math.max(corners[0], corners[1]), corners[2]);
  }

  private int firstIndex(double least, double origin) {
    return (int) Math.max(0, Math.ceil((least - origin) / lattice.stepMm() - 1e-6));
  }

  private int lastIndex(double most, double origin, int count) {
    return (int) Math.min(count - 1.0, Math.floor((most - origin) / lattice.stepMm() + 1e-6));
  }
}
