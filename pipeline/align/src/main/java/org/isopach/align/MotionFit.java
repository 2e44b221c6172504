package org.isopach.align;

import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.ArrayRealVector;
import org.apache.commons.math3.linear.CholeskyDecomposition;
import org.apache.commons.math3.linear.RealMatrix;

/**
 * Refines a pose together with the eye's motion in both scans, by iterated linear least squares
 * (Gauss-Newton) on the difference of the two shadow pictures.
 *
 * <p>Unknown are the pose's four numbers, a shift of each frame of the follow-up and one of each
 * frame of the baseline. A frame's shift follows its neighbour's but for jumps: differences have a
 * long-tailed prior; all shifts are small. Only what the two scans have in common can be told; the
 * prior shares it out between them, which does not matter to where a follow-up A-scan lies on the
 * baseline.
 */
final class MotionFit {
  private static final double STEP_SD_MM = 0.010;
  private static final double SHIFT_SD_MM = 0.06;
  private static final double TAIL = 2;
  private static final double SAMPLES_PER_FACT = 4;
  private static final double ROBUST = 1.5;

  private final ShadowSamples samples;
  private final ShadowMap ranks;
  private final int frames;
  private final int baselineFrames;
  private final int n;
  private final boolean moving;

  private Pose pose;
  private final double[] shift;
  private final double[] baselineShift;

  private final double[] gradient;
  private final double[][] normal;
  private final int[] index = new int[10];
  private final double[] slope = new double[10];
  private int slopes;
  private double placeX;
  private double placeY;
  private double correlation;
  private double variance = 1;
  private int used;

  /**
   * @param ranks the baseline's frames, counted across the scan, on its lattice
   * @param moving whether frames may be shifted
   */
  MotionFit(
      Pose start,
      ShadowSamples samples,
      ShadowMap ranks,
      int frames,
      int baselineFrames,
      boolean moving,
      MotionFit before) {
    this.pose = start;
    this.samples = samples;
    this.ranks = ranks;
    this.frames = frames;
    this.baselineFrames = baselineFrames;
    this.moving = moving;
    this.n = moving ? 4 + 2 * frames + 2 * baselineFrames : 4;
    this.shift = before == null ? new double[2 * frames] : before.shift.clone();
    this.baselineShift =
        before == null ? new double[2 * baselineFrames] : before.baselineShift.clone();
    this.gradient = new double[n];
    this.normal = new double[n][n];
  }

  /** Runs so many steps on one picture of the baseline. */
  void run(ShadowMap baseline, int steps) {
    for (int i = 0; i < steps; i++) {
      gather(baseline);
      if (moving) {
        addPrior(shift, 4, frames);
        addPrior(baselineShift, 4 + 2 * frames, baselineFrames);
      }
      step();
    }
    gather(baseline);
  }

  private void gather(ShadowMap baseline) {
    java.util.Arrays.fill(gradient, 0);
    for (double[] row : normal) {
      java.util.Arrays.fill(row, 0);
    }
    double sumA = 0;
    double sumB = 0;
    double aa = 0;
    double bb = 0;
    double ab = 0;
    double squares = 0;
    double weights = 0;
    double limit = ROBUST * Math.sqrt(variance);
    used = 0;
    for (int i = 0; i < samples.count; i++) {
      double v = samples.value[i];
      if (Double.isNaN(v)
          || !place(samples.x[i], samples.y[i], samples.rank[i])
          || !baseline.read(placeX, placeY)) {
        continue;
      }
      double value = baseline.value;
      used++;
      sumA += value;
      sumB += v;
      aa += value * value;
      bb += v * v;
      ab += value * v;
      double r = value - v;
      double size = Math.abs(r);
      double weight = size <= limit ? 1 : limit / size;
      squares += weight * r * r;
      weights += weight;
      addFact(r, weight, baseline.slopeX, baseline.slopeY);
    }
    double varA = aa - sumA * sumA / used;
    double varB = bb - sumB * sumB / used;
    correlation = (ab - sumA * sumB / used) / Math.sqrt(varA * varB);
    variance = Math.max(1e-6, squares / Math.max(1e-9, weights));
    double scale = 1 / (variance * SAMPLES_PER_FACT);
    for (int i = 0; i < n; i++) {
      gradient[i] *= scale;
      for (int j = 0; j <= i; j++) {
        normal[i][j] *= scale;
      }
    }
  }

  /** Computes where on the baseline an A-scan of the follow-up lies, and what moves it how. */
  boolean place(double xMm, double yMm, int rank) {
    double dx = xMm + shift[2 * rank] - pose.from().xMm();
    double dy = yMm + shift[2 * rank + 1] - pose.from().yMm();
    double qx = pose.to().xMm() + pose.a() * dx - pose.b() * dy + pose.tx();
    double qy = pose.to().yMm() + pose.b() * dx + pose.a() * dy + pose.ty();
    lastDx = dx;
    lastDy = dy;
    lastRank = rank;
    if (!ranks.read(qx, qy)) {
      placeX = qx;
      placeY = qy;
      lastBaselineRank = -1;
      return false;
    }
    for (int round = 0; round < 2; round++) {
      double u = Math.max(0, Math.min(baselineFrames - 1.0, ranks.value));
      int k = (int) Math.min(baselineFrames - 2.0, Math.floor(u));
      double w = u - k;
      lastBaselineRank = k;
      lastBaselineShare = w;
      placeX = qx - (1 - w) * baselineShift[2 * k] - w * baselineShift[2 * k + 2];
      placeY = qy - (1 - w) * baselineShift[2 * k + 1] - w * baselineShift[2 * k + 3];
      if (round == 0 && !ranks.read(placeX, placeY)) {
        return true;
      }
    }
    return true;
  }

  private double lastDx;
  private double lastDy;
  private int lastRank;
  private int lastBaselineRank;
  private double lastBaselineShare;

  private void addFact(double r, double weight, double sx, double sy) {
    slopes(sx, sy);
    for (int i = 0; i < slopes; i++) {
      gradient[index[i]] += weight * r * slope[i];
      for (int j = 0; j <= i; j++) {
        normal[index[i]][index[j]] += weight * slope[i] * slope[j];
      }
    }
  }

  /** How the value at the last place changes with each unknown, by the picture's slope there. */
  private void slopes(double sx, double sy) {
    slopes = 0;
    slope(0, sx * lastDx + sy * lastDy);
    slope(1, -sx * lastDy + sy * lastDx);
    slope(2, sx);
    slope(3, sy);
    if (moving) {
      int f = 4 + 2 * lastRank;
      slope(f, sx * pose.a() + sy * pose.b());
      slope(f + 1, -sx * pose.b() + sy * pose.a());
      int b = 4 + 2 * frames + 2 * lastBaselineRank;
      slope(b, -(1 - lastBaselineShare) * sx);
      slope(b + 1, -(1 - lastBaselineShare) * sy);
      slope(b + 2, -lastBaselineShare * sx);
      slope(b + 3, -lastBaselineShare * sy);
    }
  }

  private void slope(int at, double by) {
    index[slopes] = at;
    slope[slopes] = by;
    slopes++;
  }

  /** A long-tailed random walk from frame to frame, and a pull to zero. */
  private void addPrior(double[] shifts, int first, int count) {
    for (int k = 0; k < count; k++) {
      for (int d = 0; d < 2; d++) {
        int i = first + 2 * k + d;
        double still = 1 / (SHIFT_SD_MM * SHIFT_SD_MM);
        normal[i][i] += still;
        gradient[i] += still * shifts[2 * k + d];
      }
      if (k > 0) {
        double jumpX = shifts[2 * k] - shifts[2 * k - 2];
        double jumpY = shifts[2 * k + 1] - shifts[2 * k - 1];
        double jump = (jumpX * jumpX + jumpY * jumpY) / (2 * STEP_SD_MM * STEP_SD_MM);
        double weight = (TAIL + 2) / (TAIL + 2 * jump) / (STEP_SD_MM * STEP_SD_MM);
        for (int d = 0; d < 2; d++) {
          int i = first + 2 * k + d;
          double difference = d == 0 ? jumpX : jumpY;
          normal[i][i] += weight;
          normal[i - 2][i - 2] += weight;
          normal[i][i - 2] -= weight;
          gradient[i] += weight * difference;
          gradient[i - 2] -= weight * difference;
        }
      }
    }
  }

  private RealMatrix symmetric() {
    for (int i = 0; i < n; i++) {
      normal[i][i] += 1e-9 + 1e-9 * normal[i][i];
      for (int j = 0; j < i; j++) {
        normal[j][i] = normal[i][j];
      }
    }
    return new Array2DRowRealMatrix(normal, false);
  }

  private void step() {
    double[] by =
        new CholeskyDecomposition(symmetric(), 1e-6, 0)
            .getSolver()
            .solve(new ArrayRealVector(gradient, false))
            .toArray();
    pose =
        new Pose(
            pose.from(),
            pose.to(),
            pose.a() - by[0],
            pose.b() - by[1],
            pose.tx() - by[2],
            pose.ty() - by[3]);
    if (moving) {
      for (int i = 0; i < shift.length; i++) {
        shift[i] -= by[4 + i];
      }
      for (int i = 0; i < baselineShift.length; i++) {
        baselineShift[i] -= by[4 + shift.length + i];
      }
    }
  }

  /**
   * Returns the root mean square standard deviation in mm of where A-scans lie on the baseline, each
   * way, from the curvature of what was minimised; over so many of the samples within a circle.
   *
   * @param radiusMm about the pose's {@code from}
   */
  double placeSdMm(double radiusMm, int wanted) {
    if (moving) {
      addPrior(shift, 4, frames);
      addPrior(baselineShift, 4 + 2 * frames, baselineFrames);
    }
    double[][] c =
        new CholeskyDecomposition(symmetric(), 1e-6, 0).getSolver().getInverse().getData();
    double sum = 0;
    int count = 0;
    int stride = Math.max(1, samples.count / wanted);
    for (int i = 0; i < samples.count; i += stride) {
      double d =
          Math.hypot(samples.x[i] - pose.from().xMm(), samples.y[i] - pose.from().yMm());
      if (d <= radiusMm && place(samples.x[i], samples.y[i], samples.rank[i])) {
        sum += along(c, 1, 0) + along(c, 0, 1);
        count++;
      }
    }
    return count == 0 ? Double.NaN : Math.sqrt(sum / (2 * count));
  }

  /** Variance of the last place's coordinate in a direction. */
  private double along(double[][] c, double sx, double sy) {
    slopes(sx, sy);
    double sum = 0;
    for (int i = 0; i < slopes; i++) {
      for (int j = 0; j < slopes; j++) {
        sum += slope[i] * slope[j] * c[index[i]][index[j]];
      }
    }
    return sum;
  }

  Pose pose() {
    return pose;
  }

  double correlation() {
    return correlation;
  }

  int used() {
    return used;
  }

  double placeXMm() {
    return placeX;
  }

  double placeYMm() {
    return placeY;
  }
}
