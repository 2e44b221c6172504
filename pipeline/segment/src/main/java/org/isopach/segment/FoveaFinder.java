package org.isopach.segment;

import java.util.Optional;
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
 * dip; the centre with the largest drop in squared error wins, first on a coarse lattice of few
 * samples, then on finer ones of more. The pit must be deep enough and explain enough of what the
 * plane leaves. Its centre is the mean of two such fits, one against a plane within 1 mm and one
 * against a curved background within 1.3 mm, which a swelling draws aside less.
 */
final class FoveaFinder {
  private static final DipFit.Shape DIP = new DipFit.Shape(1.0, 0.38, DipFit.Background.PLANE);
  private static final DipFit.Shape WIDE = new DipFit.Shape(1.3, 0.40, DipFit.Background.CURVED);
  private static final double COARSE_SPACING_MM = 0.12;
  private static final double FINE_SPACING_MM = 0.03;
  private static final double FIRST_STEP_MM = 0.18;
  private static final double SECOND_STEP_MM = 0.04;
  private static final double THIRD_STEP_MM = 0.01;
  private static final double LEAST_DIP_MICROMETRES = 25;
  private static final double LEAST_EXPLAINED = 0.35;
  private static final double LEAST_SHARE_OF_SAMPLES = 0.6;

  private final ScanPath path;
  private final AxialScale axial;

  FoveaFinder(ScanPath path, AxialScale axial) {
    this.path = path;
    this.axial = axial;
  }

  /**
   * Returns the pit, or empty when none stands out.
   *
   * @param bottom the boundary down to which the thickness is looked at
   */
  Optional<Landmark> find(BoundarySet boundaries, Boundary bottom) {
    Optional<BoundarySurface> inner = boundaries.surface(Boundary.ILM);
    Optional<BoundarySurface> outer = boundaries.surface(bottom);
    if (inner.isEmpty() || outer.isEmpty()) {
      return Optional.empty();
    }
    double halfX = halfExtent(true);
    double halfY = halfExtent(false);
    ThicknessSamples sparse =
        ThicknessSamples.between(inner.get(), outer.get(), path, axial, COARSE_SPACING_MM);
    Search search = new Search(sparse, DIP, needed(COARSE_SPACING_MM, DIP, halfX, halfY));
    double margin = DIP.windowMm() / 2;
    DipFit best =
        search.best(
            path.middle(), Math.max(0, halfX - margin), Math.max(0, halfY - margin), FIRST_STEP_MM);
    if (best == null || best.dip() < LEAST_DIP_MICROMETRES || best.explained() < LEAST_EXPLAINED) {
      return Optional.empty();
    }
    best = search.refined(best, FIRST_STEP_MM, SECOND_STEP_MM);
    ThicknessSamples dense =
        ThicknessSamples.between(inner.get(), outer.get(), path, axial, FINE_SPACING_MM)
            .near(best.centre(), WIDE.windowMm() + 2 * FIRST_STEP_MM);
    FundusPoint steep = settled(best, dense, DIP, halfX, halfY);
    FundusPoint curved = settled(best, dense, WIDE, halfX, halfY);
    FundusPoint middle =
        new FundusPoint((steep.xMm() + curved.xMm()) / 2, (steep.yMm() + curved.yMm()) / 2);
    return Optional.of(new Landmark(middle, Landmark.Source.FOVEAL_PIT));
  }

  private FundusPoint settled(
      DipFit from, ThicknessSamples dense, DipFit.Shape shape, double halfX, double halfY) {
    Search close = new Search(dense, shape, needed(FINE_SPACING_MM, shape, halfX, halfY));
    DipFit best = close.refined(from, FIRST_STEP_MM, SECOND_STEP_MM);
    best = close.refined(best, SECOND_STEP_MM, THIRD_STEP_MM);
    return close.top(best);
  }

  private record Search(ThicknessSamples samples, DipFit.Shape shape, double needed) {

    /** Returns the fit with the largest gain on a lattice around a point, or null. */
    DipFit best(FundusPoint around, double reachX, double reachY, double step) {
      DipFit best = null;
      int nx = (int) Math.round(reachX / step);
      int ny = (int) Math.round(reachY / step);
      for (int i = -ny; i <= ny; i++) {
        for (int j = -nx; j <= nx; j++) {
          FundusPoint centre = around.plus(new FundusPoint(j * step, i * step));
          DipFit fit = DipFit.at(samples, centre, shape, needed);
          if (fit != null && fit.dip() > 0 && (best == null || fit.gain() > best.gain())) {
            best = fit;
          }
        }
      }
      return best;
    }

    /** Returns the top of the parabolas through the gains one step to either side of a fit. */
    FundusPoint top(DipFit best) {
      double dx = offset(best, new FundusPoint(THIRD_STEP_MM, 0));
      double dy = offset(best, new FundusPoint(0, THIRD_STEP_MM));
      return best.centre().plus(new FundusPoint(dx, dy));
    }

    private double offset(DipFit best, FundusPoint step) {
      DipFit before = DipFit.at(samples, best.centre().minus(step), shape, needed);
      DipFit after = DipFit.at(samples, best.centre().plus(step), shape, needed);
      if (before == null || after == null) {
        return 0;
      }
      double bend = before.gain() - 2 * best.gain() + after.gain();
      double offset = bend < 0 ? 0.5 * (before.gain() - after.gain()) / bend : 0;
      return THIRD_STEP_MM * Math.max(-0.5, Math.min(0.5, offset));
    }

    DipFit refined(DipFit from, double reach, double step) {
      DipFit found = best(from.centre(), reach, reach, step);
      return found == null ? from : found;
    }
  }

  /** The least number of samples in a window: a share of what an evenly covered scan would give. */
  private double needed(double spacingMm, DipFit.Shape shape, double halfX, double halfY) {
    int run = (int) Math.max(1, Math.round(spacingMm / path.ascanSpacingMm()));
    double all = (double) path.frames() * Math.floorDiv(path.ascans(), run);
    double window = Math.PI * shape.windowMm() * shape.windowMm();
    return LEAST_SHARE_OF_SAMPLES * all * window / Math.max(4 * halfX * halfY, window);
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
}
