package org.isopach.segment;

import java.util.Optional;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * Fits the outline of the area that looks like the optic disc: the closed contour at which a soft
 * step from 1 inside to 0 outside explains the columns' shares best (weighted least squares,
 * Gauss-Newton). Large misfits, as of shadows, weigh less.
 */
final class OpeningFit {
  private static final double LOOK_MM = 1.6;
  private static final double NEAR_MM = 0.5;
  private static final double LEAST_RADIUS_MM = 0.35;
  private static final double MOST_RADIUS_MM = 1.6;
  private static final int LEAST_SAMPLES = 40;
  private static final double[] COARSE_MM = {0.15, 0.10, 0.08};
  private static final double[] FINE_MM = {0.06, 0.035, 0.025, 0.025};
  private static final double[] SHARP_MM = {0.03, 0.02, 0.015, 0.015};
  private static final int STEPS = 4;
  private static final double ROBUST = 0.35;
  private static final double STIFFNESS = 0.02;
  private static final double LEAST_CURVATURE = 1e-6;

  private final DiscSamples samples;

  OpeningFit(DiscSamples samples) {
    this.samples = samples;
  }

  /** Returns about where the disc ends; empty when no area of a disc's size is there. */
  Optional<FittedContour> coarse() {
    return start().flatMap(circle -> refined(circle, COARSE_MM));
  }

  /** Returns the contour near a coarse one, about its own centroid; empty as there. */
  Optional<FittedContour> fine(FittedContour coarse) {
    return refined(coarse, FINE_MM);
  }

  /** Returns the contour near a fine one, of columns that tell disc from retina sharply. */
  Optional<FittedContour> sharp(FittedContour fine) {
    return refined(fine, SHARP_MM);
  }

  private Optional<FittedContour> refined(FittedContour from, double[] softnessMm) {
    FittedContour contour = from;
    for (double softness : softnessMm) {
      for (int step = 0; step < STEPS; step++) {
        contour = improved(contour, softness);
        if (contour == null) {
          return Optional.empty();
        }
      }
      contour = recentred(contour);
    }
    double mean = contour.term(0);
    return mean >= LEAST_RADIUS_MM && mean <= MOST_RADIUS_MM
        ? Optional.of(contour)
        : Optional.empty();
  }

  /** A circle about the middle of the columns that look like the disc. */
  private Optional<FittedContour> start() {
    FundusPoint centre = null;
    double radius = 0;
    for (int round = 0; round < 12; round++) {
      double sum = 0;
      double x = 0;
      double y = 0;
      double squares = 0;
      int n = 0;
      for (int i = 0; i < samples.count(); i++) {
        FundusPoint place = new FundusPoint(samples.xMm(i), samples.yMm(i));
        double far = centre == null ? 0 : place.distanceMm(centre);
        if (samples.share(i) > 0.5 && far < LOOK_MM) {
          double w = samples.weight(i);
          sum += w;
          x += w * place.xMm();
          y += w * place.yMm();
          squares += w * far * far;
          n++;
        }
      }
      if (n < LEAST_SAMPLES) {
        return Optional.empty();
      }
      radius = Math.sqrt(2 * squares / sum);
      centre = new FundusPoint(x / sum, y / sum);
    }
    return Optional.of(
        FittedContour.circle(centre, Math.max(LEAST_RADIUS_MM, Math.min(MOST_RADIUS_MM, radius))));
  }

  private FittedContour improved(FittedContour contour, double softness) {
    int n = FittedContour.TERMS;
    double[][] normal = new double[n][n];
    double[] right = new double[n];
    double[] waves = new double[n];
    double total = 0;
    for (int i = 0; i < samples.count(); i++) {
      double dx = samples.xMm(i) - contour.about().xMm();
      double dy = samples.yMm(i) - contour.about().yMm();
      double angle = Math.atan2(dy, dx);
      double inside = contour.radiusMm(angle) - Math.hypot(dx, dy);
      if (Math.abs(inside) > NEAR_MM) {
        continue;
      }
      double step = 1 / (1 + Math.exp(-inside / softness));
      double slope = step * (1 - step) / softness;
      double misfit = samples.share(i) - step;
      double w = samples.weight(i) / (1 + (misfit / ROBUST) * (misfit / ROBUST));
      FittedContour.waves(angle, waves);
      for (int j = 0; j < n; j++) {
        right[j] += w * slope * misfit * waves[j];
        for (int k = 0; k <= j; k++) {
          normal[j][k] += w * slope * slope * waves[j] * waves[k];
        }
      }
      total += w * slope * slope;
    }
    if (!(total > 0)) {
      return null;
    }
    for (int j = 0; j < n; j++) {
      right[j] /= total;
      for (int k = 0; k <= j; k++) {
        normal[j][k] /= total;
        normal[k][j] = normal[j][k];
      }
    }
    return moved(contour, normal, right);
  }

  /** Higher harmonics are held back; the mean and the shift are free. */
  private static FittedContour moved(FittedContour contour, double[][] normal, double[] right) {
    int n = FittedContour.TERMS;
    for (int j = 0; j < n; j++) {
      int order = (j + 1) / 2;
      double stiff = order < 2 ? 0 : STIFFNESS * order * order / 4;
      normal[j][j] += stiff + LEAST_CURVATURE;
      right[j] -= stiff * contour.term(j);
    }
    double[] change =
        new CholeskyDecomposition(new Array2DRowRealMatrix(normal, false))
            .getSolver()
            .solve(new ArrayRealVector(right, false))
            .toArray();
    double[] terms = new double[n];
    for (int j = 0; j < n; j++) {
      terms[j] = contour.term(j) + Math.max(-0.2, Math.min(0.2, change[j]));
    }
    return new FittedContour(contour.about(), terms);
  }

  /** The same contour about its centroid: samples of it, and their Fourier sums. */
  private static FittedContour recentred(FittedContour contour) {
    FundusPoint centre = contour.centroid();
    int steps = 720;
    double[] terms = new double[FittedContour.TERMS];
    double[] waves = new double[FittedContour.TERMS];
    for (int i = 0; i < steps; i++) {
      double angle = 2 * Math.PI * i / steps;
      double radius = radiusFrom(contour, centre, angle);
      FittedContour.waves(angle, waves);
      for (int j = 0; j < terms.length; j++) {
        terms[j] += (j == 0 ? 1 : 2) * radius * waves[j] / steps;
      }
    }
    return new FittedContour(centre, terms);
  }

  /** Distance from a point inside to the contour in a direction, by halving. */
  private static double radiusFrom(FittedContour contour, FundusPoint from, double angle) {
    double near = 0;
    double far = 2 * MOST_RADIUS_MM;
    for (int i = 0; i < 40; i++) {
      double middle = (near + far) / 2;
      FundusPoint place =
          from.plus(new FundusPoint(middle * Math.cos(angle), middle * Math.sin(angle)));
      if (contour.outsideMm(place) < 0) {
        near = middle;
      } else {
        far = middle;
      }
    }
    return (near + far) / 2;
  }
}
