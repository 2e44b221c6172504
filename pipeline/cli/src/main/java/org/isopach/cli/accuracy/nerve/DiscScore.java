package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.ArcTabulator;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.RimTable;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomScan;

/**
 * Errors of what a volume shows of the disc; NaN where there is no value.
 *
 * @param refused whether no opening was seen
 * @param centreUm distance of the found from the true centre
 * @param contourUm mean distance of the found contour's samples from the true contour
 * @param outsideUm the same, signed: positive where the found contour lies outside
 * @param areaMm2 found less true area
 * @param tiltDegrees found less true tilt
 * @param seen share of the contour that was seen
 * @param rimUm found less true mean rim width in each of the six sectors, then all round
 * @param profile the circle laid round the found centre against that round the true one
 * @param profileUm means of that circle by quadrant, then all round
 */
record DiscScore(
    boolean refused,
    double centreUm,
    double contourUm,
    double outsideUm,
    double areaMm2,
    double tiltDegrees,
    double seen,
    List<Double> rimUm,
    ProfileScore profile,
    List<Double> profileUm) {
  private static final int CONTOUR = 720;
  private static final double UM_PER_MM = 1000;

  DiscScore {
    rimUm = List.copyOf(rimUm);
    profileUm = List.copyOf(profileUm);
  }

  static DiscScore of(PhantomScan phantom, Optional<NerveBench.Disc> found) {
    NerveTruth truth = phantom.truth().nerve().orElseThrow();
    if (found.isEmpty()) {
      return refusal(truth);
    }
    DiscOpening opening = found.get().opening();
    List<FundusPoint> contour = truth.contour(CONTOUR);
    double away = 0;
    double outside = 0;
    for (int i = 0; i < opening.samples(); i++) {
      FundusPoint end = opening.point(i);
      double um = UM_PER_MM * distanceMm(end, contour);
      away += um / opening.samples();
      outside += (truth.contains(end) ? -um : um) / opening.samples();
    }
    return new DiscScore(
        false,
        UM_PER_MM * opening.centre().distanceMm(truth.centre()),
        away,
        outside,
        opening.areaMm2() - truth.areaMm2(),
        opening.tiltDegrees() - trueOpening(truth, opening).tiltDegrees(),
        opening.seenFraction(),
        rim(found.get(), truth),
        ProfileScore.centred(Optional.of(found.get().profile()), truth),
        ProfileScore.meansUm(found.get().profile(), ArcSchemes.QUADRANTS));
  }

  private static DiscScore refusal(NerveTruth truth) {
    return new DiscScore(
        true,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        Double.NaN,
        0,
        Collections.nCopies(7, Double.NaN),
        ProfileScore.centred(Optional.empty(), truth),
        Collections.nCopies(5, Double.NaN));
  }

  /** Returns the distance to a closed line of short pieces. */
  private static double distanceMm(FundusPoint point, List<FundusPoint> line) {
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < line.size(); i++) {
      FundusPoint from = line.get(i);
      FundusPoint along = line.get((i + 1) % line.size()).minus(from);
      FundusPoint to = point.minus(from);
      double length2 = along.xMm() * along.xMm() + along.yMm() * along.yMm();
      double share = (to.xMm() * along.xMm() + to.yMm() * along.yMm()) / length2;
      share = Math.min(1, Math.max(0, share));
      least =
          Math.min(
              least, Math.hypot(to.xMm() - share * along.xMm(), to.yMm() - share * along.yMm()));
    }
    return least;
  }

  private static DiscOpening trueOpening(NerveTruth truth, DiscOpening like) {
    int n = like.samples();
    double[] radius = new double[n];
    double[] height = new double[n];
    boolean[] seen = new boolean[n];
    for (int i = 0; i < n; i++) {
      radius[i] = truth.radiusMm(like.angleDegrees(i));
      height[i] = -truth.edgeDepthUm(like.angleDegrees(i));
      seen[i] = true;
    }
    return DiscOpening.of(truth.centre(), like.laterality(), radius, height, seen);
  }

  private static List<Double> rim(NerveBench.Disc found, NerveTruth truth) {
    RimTable table = ArcTabulator.tabulate(found.rim(), ArcSchemes.SIX_SECTORS_SYMMETRIC);
    double[] width = new double[found.rim().samples()];
    for (int i = 0; i < width.length; i++) {
      width[i] = truth.rimWidthUm(found.opening().angleDegrees(i));
    }
    CircleProfile expected = ProfileScore.expected(found.profile(), width);
    List<Double> means = ProfileScore.meansUm(expected, ArcSchemes.SIX_SECTORS_SYMMETRIC);
    List<Double> errors = new ArrayList<>();
    for (int i = 0; i < table.arcs().size(); i++) {
      errors.add(ProfileScore.mean(table.arcs().get(i)) - means.get(i));
    }
    errors.add(ProfileScore.mean(table.global()) - means.get(means.size() - 1));
    return errors;
  }
}
