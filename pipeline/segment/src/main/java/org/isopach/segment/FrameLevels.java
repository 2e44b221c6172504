package org.isopach.segment;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;

/**
 * How far each frame was moved along the beam while the scan was made. Bruch's membrane outside of
 * the disc is taken for an even surface of second degree over the fundus plus a shift for each
 * frame; shifts are held to a standard deviation of {@value #SHIFT_SD_UM} µm about 0, so that what
 * an even surface explains is not taken for motion.
 */
final class FrameLevels {
  private static final double SHIFT_SD_UM = 20;
  private static final double MISFIT_SD_UM = 15;
  private static final int SURFACE_TERMS = 6;
  private static final int EVERY = 4;
  private static final int ROUNDS = 3;
  private static final double FAR_UM = 60;
  private static final int LEAST_POINTS = 30;

  private final double[] shiftUm;

  private FrameLevels(double[] shiftUm) {
    this.shiftUm = shiftUm;
  }

  /**
   * Finds the shifts.
   *
   * @param membrane Bruch's membrane
   * @param contour of the disc; only what lies outside of it by {@code awayMm} counts
   */
  static FrameLevels of(
      BoundarySurface membrane,
      ScanPath path,
      AxialScale axial,
      FittedContour contour,
      double awayMm,
      double leastConfidence) {
    List<double[]> points = new ArrayList<>();
    for (int f = 0; f < membrane.frames(); f++) {
      for (int a = 0; a < membrane.ascans(); a += EVERY) {
        FundusPoint place = path.point(f, a);
        if (membrane.confidence(f, a) >= leastConfidence && contour.outsideMm(place) > awayMm) {
          FundusPoint away = place.minus(contour.about());
          double depth = axial.toMicrometres(membrane.depthPx(f, a));
          points.add(new double[] {f, away.xMm(), away.yMm(), depth});
        }
      }
    }
    int frames = membrane.frames();
    return new FrameLevels(
        points.size() < LEAST_POINTS ? new double[frames] : shifts(points, frames));
  }

  private static double[] shifts(List<double[]> points, int frames) {
    double[] weight = new double[points.size()];
    Arrays.fill(weight, 1);
    double[] solved = new double[SURFACE_TERMS + frames];
    for (int round = 0; round < ROUNDS; round++) {
      solved = solved(points, weight, frames);
      for (int i = 0; i < weight.length; i++) {
        double misfit = points.get(i)[3] - value(points.get(i), solved);
        weight[i] = 1 / (1 + (misfit / FAR_UM) * (misfit / FAR_UM));
      }
    }
    return Arrays.copyOfRange(solved, SURFACE_TERMS, solved.length);
  }

  private static double[] solved(List<double[]> points, double[] weight, int frames) {
    int n = SURFACE_TERMS + frames;
    double[][] normal = new double[n][n];
    double[] right = new double[n];
    double held = MISFIT_SD_UM * MISFIT_SD_UM / (SHIFT_SD_UM * SHIFT_SD_UM);
    for (int i = 0; i < weight.length; i++) {
      double[] point = points.get(i);
      double[] terms = terms(point);
      int own = SURFACE_TERMS + (int) point[0];
      for (int j = 0; j < SURFACE_TERMS; j++) {
        for (int k = 0; k <= j; k++) {
          normal[j][k] += weight[i] * terms[j] * terms[k];
          normal[k][j] = normal[j][k];
        }
        normal[j][own] += weight[i] * terms[j];
        normal[own][j] = normal[j][own];
        right[j] += weight[i] * terms[j] * point[3];
      }
      normal[own][own] += weight[i];
      right[own] += weight[i] * point[3];
    }
    for (int j = 0; j < n; j++) {
      normal[j][j] += j < SURFACE_TERMS ? 1e-6 : held;
    }
    return new CholeskyDecomposition(new Array2DRowRealMatrix(normal, false))
        .getSolver()
        .solve(new ArrayRealVector(right, false))
        .toArray();
  }

  private static double[] terms(double[] point) {
    double x = point[1];
    double y = point[2];
    return new double[] {1, x, y, x * x, x * y, y * y};
  }

  private static double value(double[] point, double[] solved) {
    double[] terms = terms(point);
    double sum = solved[SURFACE_TERMS + (int) point[0]];
    for (int j = 0; j < SURFACE_TERMS; j++) {
      sum += terms[j] * solved[j];
    }
    return sum;
  }

  /** Returns how much deeper a frame lies than the even surface, in µm. */
  double shiftUm(int frame) {
    return shiftUm[frame];
  }
}
