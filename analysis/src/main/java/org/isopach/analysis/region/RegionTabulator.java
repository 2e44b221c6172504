package org.isopach.analysis.region;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ScanIntegral;

/**
 * Measures the regions of a scan: volume, area, height and number, of the whole scan and by sector.
 * Definitions: docs/measurements.md, "Regions". Safe for use by several threads.
 */
public final class RegionTabulator {
  private final MapInterpolator interpolator;
  private final SectorTabulator sectors;
  private final double minimumCoverage;

  /**
   * Makes a tabulator.
   *
   * @param minimumCoverage share of a place, above 0 and up to 1, that must have been looked at
   */
  public RegionTabulator(
      MapInterpolator interpolator, SectorTabulator sectors, double minimumCoverage) {
    this.interpolator = Objects.requireNonNull(interpolator, "interpolator");
    this.sectors = Objects.requireNonNull(sectors, "sectors");
    if (!(minimumCoverage > 0 && minimumCoverage <= 1)) {
      throw new IllegalArgumentException(
          "minimumCoverage must be above 0 and at most 1, was " + minimumCoverage);
    }
    this.minimumCoverage = minimumCoverage;
  }

  /**
   * Returns one table for each kind that was looked for, in the order of {@link RegionKind}.
   *
   * @param lattice cells in mm from the scene's centre; reaches as far as the grid
   */
  public List<RegionTable> tabulate(RegionScene scene, SectorGrid grid, MapLattice lattice) {
    List<RegionTable> tables = new ArrayList<>();
    for (RegionKind kind : scene.labels().searched()) {
      tables.add(tabulate(scene, kind, grid, lattice));
    }
    return tables;
  }

  /**
   * Returns the table of one kind.
   *
   * @param lattice cells in mm from the scene's centre; reaches as far as the grid
   * @throws IllegalArgumentException when the kind was not looked for
   */
  public RegionTable tabulate(
      RegionScene scene, RegionKind kind, SectorGrid grid, MapLattice lattice) {
    if (!scene.labels().searched().contains(kind)) {
      throw new IllegalArgumentException(kind.code() + " was not looked for");
    }
    boolean[] lookedAt = LookedAt.of(scene.boundaries(), scene.labels());
    RegionRuns runs = RegionRuns.of(scene.labels(), kind);
    RegionColumns columns = RegionColumns.of(runs, lookedAt, scene.scan().axial());
    boolean gridded =
        scene.centre().isPresent() && scene.path().filter(MapInterpolator::canMap).isPresent();
    List<RegionResult> results =
        gridded
            ? new RegionSectors(interpolator, sectors, minimumCoverage)
                .tabulate(scene, columns, grid, lattice)
            : List.of();
    return new RegionTable(
        kind,
        scene.scan().identity(),
        scene.scan().laterality(),
        gridded ? Optional.of(grid.name()) : Optional.empty(),
        gridded ? scene.centre() : Optional.empty(),
        results,
        whole(scene.path(), columns),
        found(scene, runs, columns));
  }

  private RegionResult whole(Optional<ScanPath> path, RegionColumns columns) {
    if (path.isEmpty()) {
      return withoutVolume(
          columns, NotMeasurable.Reason.NO_PLACEMENT, "where the A-scans lie is not stated");
    }
    if (!MapInterpolator.canMap(path.get())) {
      return withoutVolume(
          columns,
          NotMeasurable.Reason.SPANS_NO_AREA,
          "the frames draw the figure '" + path.get().pattern().word() + "', which has no volume");
    }
    ScanIntegral height = interpolator.integrate(path.get(), columns.heightUm());
    double fraction = height.coveredFraction();
    double tallest = columns.tallestUm();
    if (fraction < minimumCoverage) {
      return Refusals.lowCoverage(
          RegionTable.SCAN, height.scannedMm2(), fraction, tallest > 0, minimumCoverage);
    }
    double area =
        columns.isEmpty() ? 0 : interpolator.integrate(path.get(), columns.presence()).sum();
    return new MeasuredRegion(
        RegionTable.SCAN, height.scannedMm2(), fraction, height.sum(), area, tallest);
  }

  private RegionResult withoutVolume(
      RegionColumns columns, NotMeasurable.Reason reason, String detail) {
    double fraction = columns.lookedAtFraction();
    boolean enough = fraction >= minimumCoverage;
    double tallest = columns.tallestUm();
    return new UnmeasuredRegion(
        RegionTable.SCAN,
        0,
        fraction,
        Refusals.present(tallest > 0, enough),
        enough ? OptionalDouble.of(tallest) : OptionalDouble.empty(),
        reason,
        detail);
  }

  /** Counts and sections need places and, as everything else, a scan that was looked at. */
  private Optional<RegionTable.Found> found(
      RegionScene scene, RegionRuns runs, RegionColumns columns) {
    if (scene.path().isEmpty() || columns.lookedAtFraction() < minimumCoverage) {
      return Optional.empty();
    }
    ScanPath path = scene.path().get();
    double[] runMm2 = RegionSections.ofRuns(runs, path, scene.scan().axial());
    return Optional.of(
        new RegionTable.Found(
            RegionCounter.count(runs, runMm2, path, scene.boundaries()),
            RegionSections.largest(runs, runMm2, path)));
  }
}
