package org.isopach.analysis.region;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorIntegral;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;

/** One kind of region by the sectors of a grid, and their total. */
final class RegionSectors {
  private final MapInterpolator interpolator;
  private final SectorTabulator sectors;
  private final double minimumCoverage;

  RegionSectors(MapInterpolator interpolator, SectorTabulator sectors, double minimumCoverage) {
    this.interpolator = interpolator;
    this.sectors = sectors;
    this.minimumCoverage = minimumCoverage;
  }

  List<RegionResult> tabulate(
      RegionScene scene, RegionColumns columns, SectorGrid grid, MapLattice lattice) {
    ScanPath path = scene.path().orElseThrow();
    Landmark centre = scene.centre().orElseThrow();
    Laterality laterality = scene.scan().laterality().orElseThrow();
    float[] height = interpolator.interpolate(path, centre, columns.heightUm(), lattice);
    float[] presence =
        columns.isEmpty()
            ? height
            : interpolator.interpolate(path, centre, columns.presence(), lattice);
    List<RegionResult> results = new ArrayList<>();
    for (Sector sector : grid.sectors()) {
      double tallest = tallest(sector, path, centre, laterality, columns);
      SectorIntegral volume = sectors.integrate(height, lattice, laterality, sector);
      double fraction = volume.coveredFraction();
      results.add(
          fraction < minimumCoverage
              ? Refusals.lowCoverage(
                  sector.name(), sector.areaMm2(), fraction, tallest > 0, minimumCoverage)
              : new MeasuredRegion(
                  sector.name(),
                  sector.areaMm2(),
                  fraction,
                  volume.sum(),
                  sectors.integrate(presence, lattice, laterality, sector).sum(),
                  tallest));
    }
    results.add(total(results));
    return results;
  }

  /** Returns the tallest run of the A-scans whose centre lies in a sector. */
  private static double tallest(
      Sector sector, ScanPath path, Landmark centre, Laterality laterality, RegionColumns columns) {
    double tallest = 0;
    for (int i = 0; i < path.frames() * path.ascans(); i++) {
      if (columns.tallestUm(i) > tallest) {
        FundusPoint at = path.point(i / path.ascans(), i % path.ascans()).minus(centre.point());
        if (sector.contains(laterality.nasalSign() * at.xMm(), -at.yMm())) {
          tallest = columns.tallestUm(i);
        }
      }
    }
    return tallest;
  }

  private static RegionResult total(List<RegionResult> sectors) {
    double place = sectors.stream().mapToDouble(RegionResult::placeAreaMm2).sum();
    double covered =
        sectors.stream().mapToDouble(one -> one.placeAreaMm2() * one.coveredFraction()).sum();
    double fraction = Math.min(1, covered / place);
    long missing = sectors.stream().filter(UnmeasuredRegion.class::isInstance).count();
    if (missing > 0) {
      boolean seen = sectors.stream().anyMatch(one -> one.present().orElse(false));
      return new UnmeasuredRegion(
          SectorGrid.TOTAL,
          place,
          fraction,
          Refusals.present(seen, false),
          OptionalDouble.empty(),
          NotMeasurable.Reason.INCOMPLETE_GRID,
          missing + " of " + sectors.size() + " sectors could not be measured");
    }
    List<MeasuredRegion> measured = sectors.stream().map(MeasuredRegion.class::cast).toList();
    return new MeasuredRegion(
        SectorGrid.TOTAL,
        place,
        fraction,
        measured.stream().mapToDouble(MeasuredRegion::volumeNl).sum(),
        measured.stream().mapToDouble(MeasuredRegion::areaMm2).sum(),
        measured.stream().mapToDouble(MeasuredRegion::maxHeightUm).max().orElse(0));
  }
}
