package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.isopach.align.EnFaceProjector;
import org.isopach.align.ScanPlace;
import org.isopach.align.VisitAligner;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.PhantomTruth;
import org.isopach.fixtures.phantom.ScanPlan;

/**
 * Two scans of one phantom eye, the second shifted by up to 1 mm, turned by up to 10 degrees and
 * stated up to 5 % too large or small, each in a pattern, with a motion and a picture of its own.
 *
 * <p>Bruch's membrane and the fovea are the true ones with errors of the size that segmentation
 * makes (see {@code docs/accuracy.md}), drawn; the shadows are read from the rendered frames.
 */
final class RegistrationTrial {
  private static final long RESCAN = 700_000;
  private static final double AXIAL_UM = 3.87;
  private static final double SHIFT_MM = 1;
  private static final double TURN_DEGREES = 10;
  private static final double SCALE = 0.05;
  private static final double PIT_ERROR_MM = 0.022;
  private static final double MEMBRANE_FRAME_PX = 0.4;
  private static final double MEMBRANE_ASCAN_PX = 0.3;
  private static final double RADIUS_MM = 3;
  private static final int EVERY = 8;

  private final PhantomScan baseline;
  private final PhantomScan followUp;
  private final ScanPlace baselinePlace;
  private final ScanPlace followUpPlace;

  RegistrationTrial(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    PhantomParameters eye = PhantomParameters.draw(seed);
    baseline = PhantomScan.of(eye, plan(random));
    double shift = SHIFT_MM * Math.sqrt(random.nextDouble());
    double angle = 2 * Math.PI * random.nextDouble();
    double turn = TURN_DEGREES * (2 * random.nextDouble() - 1);
    PhantomParameters again = eye.rescanned(RESCAN + seed);
    again =
        again.withPlacement(
            again
                .placement()
                .withDecentration(
                    eye.placement().decentrationNasalMm() + shift * Math.cos(angle),
                    eye.placement().decentrationSuperiorMm() + shift * Math.sin(angle))
                .withTorsion(eye.placement().torsionDegrees() + turn));
    followUp = PhantomScan.of(again, plan(random));
    baselinePlace = place(baseline, 1, random);
    followUpPlace = place(followUp, 1 + SCALE * (2 * random.nextDouble() - 1), random);
  }

  private static ScanPlan plan(SplittableRandom random) {
    return switch (random.nextInt(6)) {
      case 0, 1 -> ScanPlan.typical();
      case 2 -> ScanPlan.raster(new ScanSize(97, 512, 496), AXIAL_UM, 6, 6, 0);
      case 3 -> ScanPlan.raster(new ScanSize(97, 768, 496), AXIAL_UM, 9, 9, 0);
      case 4 -> ScanPlan.raster(new ScanSize(49, 512, 496), AXIAL_UM, 6, 6, 90);
      default -> ScanPlan.raster(new ScanSize(61, 384, 496), AXIAL_UM, 7, 7, 0);
    };
  }

  /** The scan as its object states it: all lengths multiplied by a factor. */
  private static ScanPlace place(PhantomScan scan, double factor, SplittableRandom random) {
    ScanPath path = scan.scan().path().orElseThrow().scaledBy(factor);
    FundusPoint fovea = scan.truth().fovea();
    FundusPoint pit =
        new FundusPoint(
            fovea.xMm() * factor + PIT_ERROR_MM * random.nextGaussian(),
            fovea.yMm() * factor + PIT_ERROR_MM * random.nextGaussian());
    return new ScanPlace(
        new Landmark(pit, Landmark.Source.FOVEAL_PIT),
        path,
        EnFaceProjector.project(scan.scan(), path, membrane(scan.truth(), random)));
  }

  private static BoundarySet membrane(PhantomTruth truth, SplittableRandom random) {
    int ascans = truth.size().ascans();
    float[] depth = new float[truth.size().frames() * ascans];
    float[] confidence = new float[depth.length];
    double offset = 0;
    for (int i = 0; i < depth.length; i++) {
      if (i % ascans == 0) {
        offset = MEMBRANE_FRAME_PX * random.nextGaussian();
      }
      double error = offset + MEMBRANE_ASCAN_PX * random.nextGaussian();
      depth[i] = (float) (truth.depthPx(Boundary.BM, i / ascans, i % ascans) + error);
      confidence[i] = Float.isNaN(depth[i]) ? 0 : 1;
    }
    return new BoundarySet(
        Map.of(Boundary.BM, new BoundarySurface(truth.size().frames(), ascans, depth, confidence)));
  }

  /** Returns the follow-up laid on the baseline, with its errors. */
  RegistrationOutcome laid() {
    VisitAlignment alignment = VisitAligner.align(baselinePlace, followUpPlace, Optional.empty());
    VisitAlignment.Aligned aligned = (VisitAlignment.Aligned) alignment;
    return new RegistrationOutcome(
        aligned.method() == VisitAlignment.Method.VESSELS,
        halfSpacingUm(),
        errors(aligned.followUpPath()),
        1000 * aligned.placeSdMm());
  }

  /** Returns whether the vessels of another eye are taken for this one's. */
  boolean takesForItself(RegistrationTrial other) {
    VisitAlignment alignment =
        VisitAligner.align(baselinePlace, other.followUpPlace, Optional.empty());
    return alignment instanceof VisitAlignment.Aligned aligned
        && aligned.method() == VisitAlignment.Method.VESSELS;
  }

  private double halfSpacingUm() {
    return 500 * followUp.scan().path().orElseThrow().ascanSpacingMm();
  }

  /** Distance in µm between where A-scans were and where they were laid; the fovea's first. */
  private List<Double> errors(ScanPath placed) {
    List<Double> errors = new ArrayList<>();
    double nearest = Double.POSITIVE_INFINITY;
    for (int f = 0; f < placed.frames(); f++) {
      for (int a = 0; a < placed.ascans(); a += EVERY) {
        FundusPoint beam = followUp.truth().beam(f, a);
        double nasal = followUp.truth().nasalMm(beam);
        double superior = followUp.truth().superiorMm(beam);
        double radius = Math.hypot(nasal, superior);
        Optional<FundusPoint> there = atBaseline(placed.point(f, a));
        if (radius <= RADIUS_MM && there.isPresent()) {
          double across = baseline.truth().nasalMm(there.get()) - nasal;
          double up = baseline.truth().superiorMm(there.get()) - superior;
          double error = 1000 * Math.hypot(across, up);
          errors.add(radius < nearest ? 0 : errors.size(), error);
          nearest = Math.min(nearest, radius);
        }
      }
    }
    return errors;
  }

  /** Where the baseline's beam truly was at a stated place: its frames' motion, linear between. */
  private Optional<FundusPoint> atBaseline(FundusPoint stated) {
    ScanPath path = baseline.scan().path().orElseThrow();
    FundusPoint corner = path.point(0, 0);
    FundusPoint along = path.point(0, path.ascans() - 1).minus(corner);
    FundusPoint across = path.point(path.frames() - 1, 0).minus(corner);
    FundusPoint from = stated.minus(corner);
    double share = share(from, along);
    double frame = share(from, across) * (path.frames() - 1);
    if (share < 0 || share > 1 || frame < 0 || frame >= path.frames() - 1) {
      return Optional.empty();
    }
    int before = (int) frame;
    double w = frame - before;
    FundusPoint first = motion(path, before);
    FundusPoint second = motion(path, before + 1);
    return Optional.of(
        new FundusPoint(
            stated.xMm() + (1 - w) * first.xMm() + w * second.xMm(),
            stated.yMm() + (1 - w) * first.yMm() + w * second.yMm()));
  }

  private FundusPoint motion(ScanPath path, int frame) {
    return baseline.truth().beam(frame, 0).minus(path.point(frame, 0));
  }

  private static double share(FundusPoint from, FundusPoint along) {
    double length = along.xMm() * along.xMm() + along.yMm() * along.yMm();
    return (from.xMm() * along.xMm() + from.yMm() * along.yMm()) / length;
  }
}
