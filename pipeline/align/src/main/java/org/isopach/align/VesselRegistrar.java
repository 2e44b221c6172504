package org.isopach.align;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.map.FrameNeighbours;
import org.isopach.analysis.map.FramePair;

/** Finds where a follow-up lies on its baseline by the shadows of vessels. */
public final class VesselRegistrar {
  private static final double NEAR_MM = 0.4;

  static Fit fit(EnFace baseline, FundusPoint to, EnFace followUp, FundusPoint from, double reach) {
    Picture fixed = new Picture(baseline);
    Picture moved = new Picture(followUp);
    MotionFit[] halves = new MotionFit[2];
    for (int half = 0; half < 2; half++) {
      for (Candidate start : new PoseSearch(fixed.coarse(0.12), moved.coarse(0.12), from, half).best(from, to, reach)) {
        MotionFit fit = new MotionFit(start.pose(), moved.samples(0.06, 0.10).fields(half), fixed.ranks(), moved.frames(), fixed.frames(), false, null);
        fit.run(fixed.level(0.06, 0.10), 6);
        if (!Double.isNaN(fit.correlation()) && (halves[half] == null || fit.correlation() > halves[half].correlation())) halves[half] = fit;
      }
    }
    if (halves[0] == null || halves[1] == null) return null;
    double apart = halves[0].pose().apartMm(halves[1].pose(), 3);
    MotionFit best = halves[0].correlation() > halves[1].correlation() ? halves[0] : halves[1];
    MotionFit first = new MotionFit(best.pose(), moved.samples(0.06, 0.10), fixed.ranks(), moved.frames(), fixed.frames(), false, null);
    first.run(fixed.level(0.06, 0.10), 6);
    MotionFit second = new MotionFit(first.pose(), moved.samples(0.05, 0.06), fixed.ranks(), moved.frames(), fixed.frames(), true, null);
    second.run(fixed.level(0.05, 0.06), 5);
    MotionFit last = new MotionFit(second.pose(), moved.samples(A3, 0), fixed.ranks(), moved.frames(), fixed.frames(), true, second);
    last.run(fixed.level(A3, 0), 6);
    return new Fit(last, halves, apart, first.correlation(), second.correlation(), moved.rankOf);
  }

  record Fit(MotionFit fit, MotionFit[] halves, double apart, double rigid, double second, int[] rankOf) {}

  static final class Picture {
    final EnFace face;
    final int[] rankOf;
    private ShadowMap ranks;
    Picture(EnFace face) {
      this.face = face;
      this.rankOf = ranks(face.path());
    }
    int frames() { return face.path().frames(); }
    ShadowMap coarse(double blur) { return ShadowMap.of(face.path(), face.smoothed(0.06)).blurred(blur); }
    ShadowMap level(double along, double blur) {
      ShadowMap map = ShadowMap.of(face.path(), face.smoothed(along));
      return blur > 0 ? map.blurred(blur) : map;
    }
    ShadowSamples samples(double along, double blur) {
      ShadowSamples samples = new ShadowSamples(face.path(), rankOf, face.smoothed(along));
      return blur > 0 ? samples.from(level(along, blur)) : samples;
    }
    ShadowMap ranks() {
      if (ranks == null) {
        double[] values = new double[face.path().frames() * face.path().ascans()];
        for (int i = 0; i < values.length; i++) {
          values[i] = rankOf[i / face.path().ascans()];
        }
        ranks = ShadowMap.of(face.path(), values);
      }
      return ranks;
    }
    private static int[] ranks(ScanPath path) {
      int[] rank = new int[path.frames()];
      if (path.pattern() != ScanPattern.RASTER) {
        for (int i = 0; i < rank.length; i++) { rank[i] = i; }
        return rank;
      }
      int next = 0;
      for (FramePair pair : FrameNeighbours.of(path, f -> true)) {
        if (next == 0) { rank[pair.first()] = next++; }
        rank[pair.second()] = next++;
      }
      return rank;
    }
  }
}
