package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.isopach.align.EnFaceProjector;
import org.isopach.align.ScanPlace;
import org.isopach.align.VisitAligner;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/**
 * An eye scanned in the middle and again 0.5 mm beside it, 49 frames over 7.4 mm: how much the
 * sectors' means differ once one scan is laid on the other. Boundaries are the true ones, so that
 * only place, motion and sampling differ.
 */
final class DecentredTrial {
  private static final long RESCAN = 800_000;
  private static final double AWAY_MM = 0.5;
  private static final double PIT_ERROR_MM = 0.022;
  private static final ScanPlan PLAN =
      ScanPlan.raster(new ScanSize(49, 512, 496), 3.87, 7.4, 7.4, 0);
  private static final MapLattice LATTICE = MapLattice.centred(3, 0.02);

  private final MapInterpolator interpolator = new MapInterpolator(InterpolationRules.DEFAULT);
  private final SectorTabulator tabulator = new SectorTabulator();

  /**
   * Returns the difference of every sector's and the total's mean in µm, decentred less centred.
   *
   * @param laid whether the decentred scan is laid on the other; else each lies about its own pit
   */
  List<Double> differencesUm(long seed, boolean laid) {
    SplittableRandom random = new SplittableRandom(seed);
    PhantomParameters eye = PhantomParameters.draw(seed);
    PhantomParameters centred = eye.withPlacement(eye.placement().withDecentration(0, 0));
    double angle = 2 * Math.PI * random.nextDouble();
    PhantomParameters again = eye.rescanned(RESCAN + seed);
    PhantomParameters decentred =
        again.withPlacement(
            again
                .placement()
                .withDecentration(AWAY_MM * Math.cos(angle), AWAY_MM * Math.sin(angle)));
    PhantomScan first = PhantomScan.of(centred, PLAN);
    PhantomScan second = PhantomScan.of(decentred, PLAN);
    ScanPlace baseline = place(first, random);
    ScanPlace followUp = place(second, random);
    ScanPath path = followUp.path();
    Landmark centre = followUp.landmark();
    if (laid) {
      VisitAlignment.Aligned aligned =
          (VisitAlignment.Aligned) VisitAligner.align(baseline, followUp, Optional.empty());
      path = aligned.followUpPath();
      centre = aligned.followUp();
    }
    return differences(
        table(first, baseline.path(), baseline.landmark()), table(second, path, centre));
  }

  private static ScanPlace place(PhantomScan scan, SplittableRandom random) {
    FundusPoint fovea = scan.truth().fovea();
    FundusPoint pit =
        new FundusPoint(
            fovea.xMm() + PIT_ERROR_MM * random.nextGaussian(),
            fovea.yMm() + PIT_ERROR_MM * random.nextGaussian());
    ScanPath path = scan.scan().path().orElseThrow();
    return new ScanPlace(
        new Landmark(pit, Landmark.Source.FOVEAL_PIT),
        path,
        EnFaceProjector.project(scan.scan(), path, scan.truth().boundaries()));
  }

  private SectorTable table(PhantomScan scan, ScanPath path, Landmark centre) {
    ThicknessMap map =
        interpolator.interpolate(
            scan.scan(), path, scan.truth().boundaries(), Layer.ILM_BM, centre, LATTICE);
    return tabulator.tabulate(
        map, EtdrsGrids.ETDRS_1_3_6, SectorTabulator.DEFAULT_MINIMUM_COVERAGE);
  }

  private static List<Double> differences(SectorTable first, SectorTable second) {
    List<Double> differences = new ArrayList<>();
    for (int i = 0; i < first.sectors().size(); i++) {
      if (first.sectors().get(i) instanceof Measured before
          && second.sectors().get(i) instanceof Measured after) {
        differences.add(after.meanUm() - before.meanUm());
      }
    }
    return differences;
  }
}
