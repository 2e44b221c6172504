package org.isopach.align;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.isopach.analysis.geometry.FundusPoint;

/** Tries turns, scales and shifts on coarse pictures and returns the best few, far apart. */
final class PoseSearch {
  private static final double POINT_STEP_MM = 0.12;
  private static final double SHIFT_STEP_MM = 0.08;
  private static final double TURN_STEP_DEGREES = 2;
  private static final double MOST_TURN_DEGREES = 12;
  private static final double[] SCALES = {0.94, 0.97, 1, 1.03, 1.06};
  private static final double LEAST_SHARE = 0.35;
  private static final double DISTINCT_MM = 0.25;
  private static final int KEPT = 4;

  private final ShadowMap baseline;
  private final double[] x;
  private final double[] y;
  private final double[] v;
  private final int points;

  /**
   * @param parity which fields of the chequerboard are looked at
   */
  PoseSearch(ShadowMap baseline, ShadowMap followUp, FundusPoint from, int parity) {
    this.baseline = baseline;
    int step = (int) Math.round(POINT_STEP_MM / ShadowMap.STEP_MM);
    int most = (followUp.rows() / step + 1) * (followUp.columns() / step + 1);
    x = new double[most];
    y = new double[most];
    v = new double[most];
    int n = 0;
    for (int r = step / 2; r < followUp.rows(); r += step) {
      for (int c = step / 2; c < followUp.columns(); c += step) {
        float value = followUp.cell(r, c);
        if (!Float.isNaN(value)
            && Chequers.parity(followUp.xMm(c), followUp.yMm(r)) == parity) {
          x[n] = followUp.xMm(c) - from.xMm();
          y[n] = followUp.yMm(r) - from.yMm();
          v[n] = value;
          n++;
        }
      }
    }
    points = n;
  }

  /**
   * Returns the best poses, the best first; empty when the pictures have too little in common.
   *
   * @param reachMm how far the point {@code from} may lie from {@code to}, each way
   */
  List<Candidate> best(FundusPoint from, FundusPoint to, double reachMm) {
    List<Candidate> all = new ArrayList<>();
    int reach = (int) Math.ceil(reachMm / SHIFT_STEP_MM);
    for (double scale : SCALES) {
      for (double turn = -MOST_TURN_DEGREES;
          turn <= MOST_TURN_DEGREES;
          turn += TURN_STEP_DEGREES) {
        for (int i = -reach; i <= reach; i++) {
          for (int j = -reach; j <= reach; j++) {
            Pose pose =
                Pose.of(
                    from,
                    to,
                    scale,
                    Math.toRadians(turn),
                    i * SHIFT_STEP_MM,
                    j * SHIFT_STEP_MM);
            double correlation = correlation(pose);
            if (!Double.isNaN(correlation)) {
              all.add(new Candidate(pose, correlation));
            }
          }
        }
      }
    }
    all.sort(Comparator.comparingDouble(Candidate::correlation).reversed());
    return distinct(all);
  }

  private double correlation(Pose pose) {
    double n = 0;
    double sumA = 0;
    double sumB = 0;
    double aa = 0;
    double bb = 0;
    double ab = 0;
    double originX = pose.to().xMm() + pose.tx();
    double originY = pose.to().yMm() + pose.ty();
    for (int k = 0; k < points; k++) {
      double qx = originX + pose.a() * x[k] - pose.b() * y[k];
      double qy = originY + pose.b() * x[k] + pose.a() * y[k];
      if (baseline.read(qx, qy)) {
        double value = baseline.value;
        n++;
        sumA += value;
        sumB += v[k];
        aa += value * value;
        bb += v[k] * v[k];
        ab += value * v[k];
      }
    }
    if (n < LEAST_SHARE * points || n < 50) {
      return Double.NaN;
    }
    double varA = aa - sumA * sumA / n;
    double varB = bb - sumB * sumB / n;
    return varA > 0 && varB > 0 ? (ab - sumA * sumB / n) / Math.sqrt(varA * varB) : Double.NaN;
  }

  private static List<Candidate> distinct(List<Candidate> sorted) {
    List<Candidate> kept = new ArrayList<>();
    for (Candidate one : sorted) {
      boolean apart =
          kept.stream()
              .allMatch(
                  other ->
                      Math.hypot(
                                  one.pose().tx() - other.pose().tx(),
                                  one.pose().ty() - other.pose().ty())
                              > DISTINCT_MM
                          || Math.abs(one.pose().degrees() - other.pose().degrees()) > 5);
      if (apart) {
        kept.add(one);
      }
      if (kept.size() == KEPT) {
        break;
      }
    }
    return kept;
  }
}
