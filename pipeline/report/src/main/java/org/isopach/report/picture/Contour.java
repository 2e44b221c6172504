package org.isopach.report.picture;

import java.util.Arrays;

/** One line of equal value: a level in µm and a chain of places in mm, open or closed. */
final class Contour {
  private final double levelMicrometres;
  private final double[] xMm;
  private final double[] yMm;

  Contour(double levelMicrometres, double[] xMm, double[] yMm) {
    if (xMm.length < 2 || xMm.length != yMm.length) {
      throw new IllegalArgumentException("a contour needs at least two places");
    }
    this.levelMicrometres = levelMicrometres;
    this.xMm = xMm.clone();
    this.yMm = yMm.clone();
  }

  double levelMicrometres() {
    return levelMicrometres;
  }

  int points() {
    return xMm.length;
  }

  double xMm(int i) {
    return xMm[i];
  }

  double yMm(int i) {
    return yMm[i];
  }

  boolean closed() {
    int last = xMm.length - 1;
    return xMm[0] == xMm[last] && yMm[0] == yMm[last];
  }

  double lengthMm() {
    double sum = 0;
    for (int i = 1; i < xMm.length; i++) {
      sum += Math.hypot(xMm[i] - xMm[i - 1], yMm[i] - yMm[i - 1]);
    }
    return sum;
  }

  @Override
  public String toString() {
    return levelMicrometres + " um " + Arrays.toString(xMm) + " " + Arrays.toString(yMm);
  }
}
