package org.isopach.segment;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.DecompositionSolver;
import org.apache.commons.math3.linear.LUDecomposition;
import org.apache.commons.math3.linear.RealVector;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.Landmark;

/**
 * Finds the foveal pit as the place where a round dip explains the thickness best.
 *
 * <p>At each candidate centre the thickness within 1 mm is fitted by a tilted plane less a Gaussian
 * dip. The centre with the largest drop in squared error wins, first on a coarse lattice, then on a
 * finer one. The pit must be deep enough and explain enough of what the plane leaves.
 */
final class FoveaFinder {
  private static final double POINT_SPACING_MM = 0.05;
  private static final double WINDOW_MM = 1.0;
  private static final double DIP_SIGMA_MM = 0.38;
  private static final double FIRST_STEP_MM = 0.12;
  private static final double SECOND_STEP_MM = 0.03;
  private static final double THIRD_STEP_MM = 0.01;
  private static final double LEAST_DIP_MICROMETRES = 25;
  private static final double LEAST_EXPLAINED = 0.35;
  private static final double LEAST_SHARE_OF_POINTS = 0.6;
  private static final float LEAST_CONFIDENCE = 0.2f;

  private final ScanPath path;
  private final AxialScale axial;

  FoveaFinder(ScanPath path, AxialScale axial) {
    this.path = path;
    this.axial = axial;
  }

  private record Sample(double xMm, double yMm, double thickness) {}

  private record Fit(FundusPoint centre, double dip, double explained, double gain) {}

  /** Returns the pit, or empty when none stands out. */
  Optional<Landmark> find(BoundarySet boundaries) {
    Optional<BoundarySurface> inner = boundaries.surface(Boundary.ILM);
    Optional<BoundarySurface> outer = boundaries.surface(Boundary.BM);
    if (inner.isEmpty() || outer.isEmpty()) {
      return Optional.empty();
    }
    List<Sample> samples = samples(inner.get(), outer.get());
    double needed = LEAST_SHARE_OF_POINTS * expectedSamples();
    FundusPoint middle = path.middle();
    double halfX = halfExtent(true) - WINDOW_MM / 2;
    double halfY = halfExtent(false) - WINDOW_MM / 2;
    Fit best = best(samples, middle, Math.max(0, halfX), Math.max(0, halfY), FIRST_STEP_MM, needed);
    if (best == null) {
      return Optional.empty();
    }
    best = better(best, samples, FIRST_STEP_MM, SECOND_STEP_MM, needed);
    best = better(best, samples, SECOND_STEP_MM, THIRD_STEP_MM, needed);
    if (best.dip() < LEAST_DIP_MICROMETRES || best.explained() < LEAST_EXPLAINED) {
      return Optional.empty();
    }
    return Optional.of(new Landmark(best.centre(), Landmark.Source.FOVEAL_PIT));
  }

  private Fit better(Fit best, List<Sample> samples, double reach, double step, double needed) {
    Fit found = best(samples, best.centre(), reach, reach, step, needed);
    return found == null ? best : found;
  }

  private List<Sample> samples(BoundarySurface inner, BoundarySurface outer) {
    int block = (int) Math.max(1, Math.round(POINT_SPACING_MM / path.ascanSpacingMm()));
    List<Sample> samples = new ArrayList<>();
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a + block <= path.ascans(); a += block) {
        double sum = 0;
        double x = 0;
        double y = 0;
        int n = 0;
        for (int j = a; j < a + block; j++) {
          double thickness = outer.depthPx(f, j) - inner.depthPx(f, j);
          boolean sure =
              Math.min(outer.confidence(f, j), inner.confidence(f, j)) >= LEAST_CONFIDENCE;
          if (sure && !Double.isNaN(thickness)) {
            sum += thickness;
            x += path.xMm(f, j);
            y += path.yMm(f, j);
            n++;
          }
        }
        if (2 * n > block) {
          samples.add(new Sample(x / n, y / n, axial.toMicrometres(sum / n)));
        }
      }
    }
    return samples;
  }

  /** The number of samples a full window would hold in an evenly covered scan. */
  private double expectedSamples() {
    int block = (int) Math.max(1, Math.round(POINT_SPACING_MM / path.ascanSpacingMm()));
    double area = 4 * halfExtent(true) * halfExtent(false);
    double all = (double) path.frames() * Math.floorDiv(path.ascans(), block);
    return all * Math.PI * WINDOW_MM * WINDOW_MM / Math.max(area, Math.PI * WINDOW_MM * WINDOW_MM);
  }

  private double halfExtent(boolean alongX) {
    FundusPoint middle = path.middle();
    double half = 0;
    for (int f = 0; f < path.frames(); f++) {
      for (int a : new int[] {0, path.ascans() - 1}) {
        FundusPoint p = path.point(f, a).minus(middle);
        half = Math.max(half, Math.abs(alongX ? p.xMm() : p.yMm()));
      }
    }
    return half;
  }

  private Fit best(
      List<Sample> samples,
      FundusPoint around,
      double reachX,
      double reachY,
      double step,
      double needed) {
    Fit best = null;
    int nx = (int) Math.round(reachX / step);
    int ny = (int) Math.round(reachY / step);
    for (int i = -ny; i <= ny; i++) {
      for (int j = -nx; j <= nx; j++) {
        FundusPoint centre = around.plus(new FundusPoint(j * step, i * step));
        Fit fit = fit(samples, centre, needed);
        if (fit != null && fit.dip() > 0 && (best == null || fit.gain() > best.gain())) {
          best = fit;
        }
      }
    }
    return best;
  }

  /** Least squares of {1, x, y, dip}; null when there are too few samples or they lie on a line. */
  private static Fit fit(List<Sample> samples, FundusPoint centre, double needed) {
    double[][] normal = new double[4][4];
    double[] right = new double[4];
    double squares = 0;
    int n = 0;
    double[] basis = new double[4];
    for (Sample sample : samples) {
      double x = sample.xMm() - centre.xMm();
      double y = sample.yMm() - centre.yMm();
      double r2 = x * x + y * y;
      if (r2 > WINDOW_MM * WINDOW_MM) {
        continue;
      }
      basis[0] = 1;
      basis[1] = x;
      basis[2] = y;
      basis[3] = -Math.exp(-r2 / (2 * DIP_SIGMA_MM * DIP_SIGMA_MM));
      for (int i = 0; i < 4; i++) {
        for (int j = 0; j <= i; j++) {
          normal[i][j] += basis[i] * basis[j];
        }
        right[i] += basis[i] * sample.thickness();
      }
      squares += sample.thickness() * sample.thickness();
      n++;
    }
    if (n < Math.max(12, needed)) {
      return null;
    }
    for (int i = 0; i < 4; i++) {
      for (int j = i + 1; j < 4; j++) {
        normal[i][j] = normal[j][i];
      }
    }
    return solve(centre, normal, right, squares);
  }

  private static Fit solve(FundusPoint centre, double[][] normal, double[] right, double squares) {
    DecompositionSolver all = new LUDecomposition(new Array2DRowRealMatrix(normal)).getSolver();
    double[][] planeNormal = new double[3][3];
    for (int i = 0; i < 3; i++) {
      System.arraycopy(normal[i], 0, planeNormal[i], 0, 3);
    }
    DecompositionSolver plane =
        new LUDecomposition(new Array2DRowRealMatrix(planeNormal)).getSolver();
    if (!all.isNonSingular() || !plane.isNonSingular()) {
      return null;
    }
    RealVector b = new ArrayRealVector(right);
    RealVector withDip = all.solve(b);
    RealVector b3 = b.getSubVector(0, 3);
    double left = squares - plane.solve(b3).dotProduct(b3);
    double leftWithDip = squares - withDip.dotProduct(b);
    double gain = left - leftWithDip;
    return new Fit(centre, withDip.getEntry(3), left > 0 ? gain / left : 0, gain);
  }
}
