package org.isopach.align;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Tries turns, scales and shifts on coarse pictures and returns the best few, far apart. */
final class PoseSearch {
  private static final double POINT_STEP_MM = 0.16;
  private static final double TURN_STEP_DEGREES = 2;
  private static final int TURNS = 6;
  private static final double LEAST_SHARE = 0.35;
  private static final int LEAST_POINTS = 50;
  private static final double DISTINCT_MM = 0.25;
  private static final double DISTINCT_DEGREES = 5;
  private static final int KEPT = 4;

  private final SearchStart start;
  private final ShadowMap baseline;
  private final double[] x;
  private final double[] y;
  private final double[] v;
  private final int points;
  private final Correlation pairs = new Correlation();

  /**
   * @param parity which fields of the chequerboard are looked at
   */
  PoseSearch(ShadowMap baseline, ShadowMap followUp, SearchStart start, int parity) {
    this.start = start;
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
        if (!Float.isNaN(value) && Chequers.parity(followUp.xMm(c), followUp.yMm(r)) == parity) {
          x[n] = followUp.xMm(c) - start.from().xMm();
          y[n] = followUp.yMm(r) - start.from().yMm();
          v[n] = value;
          n++;
        }
      }
    }
    points = n;
  }

  /** Returns the best poses, the best first; none when the pictures have too little in common. */
  List<Candidate> best() {
    List<Candidate> all = new ArrayList<>();
    int scales = start.isFar() ? 1 : 2;
    double scaleStep = start.isFar() ? 0.045 : 0.03;
    for (int s = -scales; s <= scales; s++) {
      for (int t = -TURNS; t <= TURNS; t++) {
        shifts(1 + s * scaleStep, Math.toRadians(t * TURN_STEP_DEGREES), all);
      }
    }
    all.sort(Comparator.comparingDouble(Candidate::correlation).reversed());
    return distinct(all);
  }

  private void shifts(double scale, double turn, List<Candidate> all) {
    double step = start.isFar() ? 0.12 : 0.10;
    int reach = (int) Math.ceil(start.reachMm() / step);
    for (int i = -reach; i <= reach; i++) {
      for (int j = -reach; j <= reach; j++) {
        Pose pose = start.pose().changed(scale, turn, i * step, j * step);
        double correlation = correlation(pose);
        if (!Double.isNaN(correlation)) {
          all.add(new Candidate(pose, correlation));
        }
      }
    }
  }

  private double correlation(Pose pose) {
    pairs.clear();
    double originX = pose.to().xMm() + pose.tx();
    double originY = pose.to().yMm() + pose.ty();
    for (int k = 0; k < points; k++) {
      double qx = originX + pose.a() * x[k] - pose.b() * y[k];
      double qy = originY + pose.b() * x[k] + pose.a() * y[k];
      if (baseline.read(qx, qy)) {
        pairs.add(baseline.value, v[k]);
      }
    }
    return pairs.count() < LEAST_SHARE * points || pairs.count() < LEAST_POINTS
        ? Double.NaN
        : pairs.value();
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
                          || Math.abs(one.pose().degrees() - other.pose().degrees())
                              > DISTINCT_DEGREES);
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
