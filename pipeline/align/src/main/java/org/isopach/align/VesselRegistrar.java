package org.isopach.align;

import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import org.isopach.align.ShadowPicture.Fineness;
import org.isopach.analysis.geometry.ScanPath;

/**
 * Finds where a follow-up lies on its baseline by the shadows of vessels: turn, scale and shift by
 * search, then with the frames' own shifts by least squares (see {@code docs/measurements.md}).
 *
 * <p>The search is made twice, with the black and with the white fields of a chequerboard of the
 * follow-up. A wrong place is found by chance, and the two halves then find different ones.
 */
final class VesselRegistrar {
  /** Correlation of the finest pictures below which nothing is taken for found. */
  static final double LEAST_CORRELATION = 0.22;

  /** Distance of the halves' places above which nothing is taken for found, mm. */
  static final double MOST_APART_MM = 0.15;

  /** What standard deviations from the fit's curvature are multiplied with. */
  static final double SD_FACTOR = 1.4;

  private static final double LEAST_SHARED = 0.25;
  private static final double RADIUS_MM = 3;
  private static final int PLACES = 150;
  private static final int STEPS = 6;

  private final EnFace followUpFace;
  private final ShadowPicture baseline;
  private final ShadowPicture followUp;
  private final ShadowMap ranks;
  private final ShadowMap rigidBaseline;
  private final ShadowSamples rigidSamples;
  private final boolean moving;

  VesselRegistrar(EnFace baseline, EnFace followUp) {
    this.followUpFace = followUp;
    this.baseline = new ShadowPicture(baseline);
    this.followUp = new ShadowPicture(followUp);
    this.ranks = this.baseline.ranks();
    this.rigidBaseline = this.baseline.map(Fineness.RIGID);
    this.rigidSamples = this.followUp.samples(Fineness.RIGID);
    this.moving = this.baseline.isRaster() && this.followUp.isRaster();
  }

  /** Returns what is found from a start. */
  VesselMatch match(SearchStart start) {
    ShadowMap fixed = baseline.map(Fineness.SEARCH);
    ShadowMap moved = followUp.map(Fineness.SEARCH);
    Optional<LayingFit> black = half(fixed, moved, start, 0);
    Optional<LayingFit> white = half(fixed, moved, start, 1);
    if (black.isEmpty() || white.isEmpty()) {
      return new VesselMatch.NotFound("the two scans show too little of one place");
    }
    Pose one = black.get().laying().pose();
    Pose other = white.get().laying().pose();
    double apart = one.apartMm(other, RADIUS_MM);
    if (apart > MOST_APART_MM) {
      return notFound(
          "two halves of the scan find places %.2f mm apart (%.2f at most)", apart, MOST_APART_MM);
    }
    Pose better = black.get().correlation() >= white.get().correlation() ? one : other;
    return judge(refine(better), apart);
  }

  private Optional<LayingFit> half(
      ShadowMap fixed, ShadowMap moved, SearchStart start, int parity) {
    ShadowSamples fields = rigidSamples.fields(parity);
    return new PoseSearch(fixed, moved, start, parity)
        .best().stream()
            .map(one -> new LayingFit(laying(one.pose()), fields, false).run(rigidBaseline, STEPS))
            .filter(LayingFit::usable)
            .max(Comparator.comparingDouble(LayingFit::correlation));
  }

  private Laying laying(Pose pose) {
    return new Laying(
        pose, new FrameShifts(followUp.frames()), new FrameShifts(baseline.frames()), ranks);
  }

  private LayingFit refine(Pose start) {
    LayingFit rigid = new LayingFit(laying(start), rigidSamples, false).run(rigidBaseline, STEPS);
    LayingFit coarse = next(rigid, Fineness.FRAMES);
    return coarse.usable() ? next(coarse, Fineness.FINEST) : coarse;
  }

  private LayingFit next(LayingFit before, Fineness fineness) {
    return new LayingFit(before.laying(), followUp.samples(fineness), moving)
        .run(baseline.map(fineness), STEPS);
  }

  private VesselMatch judge(LayingFit fit, double apart) {
    if (!fit.usable() || fit.sharedFraction() < LEAST_SHARED) {
      return new VesselMatch.NotFound("the two scans show too little of one place");
    }
    if (fit.correlation() < LEAST_CORRELATION) {
      return notFound(
          "their shadows correlate by %.2f only (%.2f is the least)",
          fit.correlation(), LEAST_CORRELATION);
    }
    Laying laying = fit.laying();
    double motion =
        Math.hypot(
            laying.followUpShifts().rootMeanSquareMm(), laying.baselineShifts().rootMeanSquareMm());
    double sd = SD_FACTOR * fit.placeSdMm(RADIUS_MM, PLACES);
    return new VesselMatch.Found(
        laying.pose().transform(),
        placed(laying),
        fit.correlation(),
        apart,
        fit.sharedFraction(),
        motion,
        sd);
  }

  private ScanPath placed(Laying laying) {
    ScanPath path = followUpFace.path();
    double[] x = new double[path.frames() * path.ascans()];
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      int frame = i / path.ascans();
      int ascan = i % path.ascans();
      laying.place(path.xMm(frame, ascan), path.yMm(frame, ascan), followUp.rank(frame));
      x[i] = laying.xMm;
      y[i] = laying.yMm;
    }
    return path.placedAt(x, y, baseline.path().frame());
  }

  private static VesselMatch notFound(String format, double found, double limit) {
    return new VesselMatch.NotFound(String.format(Locale.ROOT, format, found, limit));
  }
}
