package org.isopach.analysis.nerve;

/**
 * The plane that fits the seen ends of the membrane best (least squares of height).
 *
 * @param towardsTemporal slope in µm per mm, positive where the rim rises to temporal
 * @param towardsSuperior slope in µm per mm, positive where it rises to superior
 */
record RimPlane(double towardsTemporal, double towardsSuperior) {
  private static final double UM_PER_MM = 1000;
  private static final double ON_ONE_LINE = 1e-6;

  /**
   * @throws IllegalArgumentException when fewer than three ends were seen or they lie on one line
   */
  static RimPlane through(OpeningContour contour, double[] heightUm, boolean[] seen) {
    double[] mean = new double[3];
    int count = 0;
    for (int i = 0; i < seen.length; i++) {
      if (seen[i]) {
        mean[0] += contour.temporalMm(i);
        mean[1] += contour.superiorMm(i);
        mean[2] += heightUm[i];
        count++;
      }
    }
    if (count < 3) {
      throw new IllegalArgumentException("an opening needs three seen ends, had " + count);
    }
    double tt = 0;
    double ts = 0;
    double ss = 0;
    double th = 0;
    double sh = 0;
    for (int i = 0; i < seen.length; i++) {
      if (seen[i]) {
        double t = contour.temporalMm(i) - mean[0] / count;
        double s = contour.superiorMm(i) - mean[1] / count;
        double h = heightUm[i] - mean[2] / count;
        tt += t * t;
        ts += t * s;
        ss += s * s;
        th += t * h;
        sh += s * h;
      }
    }
    double determinant = tt * ss - ts * ts;
    if (!(determinant > ON_ONE_LINE * tt * ss)) {
      throw new IllegalArgumentException("the seen ends of an opening lie on one line");
    }
    return new RimPlane((th * ss - sh * ts) / determinant, (sh * tt - th * ts) / determinant);
  }

  /** Returns the plane over lengths on the fundus that were multiplied; heights stay. */
  RimPlane overLengths(double factor) {
    return new RimPlane(towardsTemporal / factor, towardsSuperior / factor);
  }

  double tiltDegrees() {
    return Math.toDegrees(Math.atan(Math.hypot(towardsTemporal, towardsSuperior) / UM_PER_MM));
  }

  /** Returns the direction in which the plane falls away from the vitreous; 0 without a tilt. */
  double towardsDegrees() {
    boolean flat = towardsTemporal == 0 && towardsSuperior == 0;
    return flat
        ? 0
        : DiscAngle.normal(Math.toDegrees(Math.atan2(-towardsSuperior, -towardsTemporal)));
  }
}
