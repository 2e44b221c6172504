package org.isopach.analysis.change;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;

/**
 * Compares two visits of one eye, like with like.
 *
 * <p>A sector's two means are taken over the cells that have a value at both visits; the sector is
 * measured when these make up the coverage asked for. Safe for use by several threads.
 */
public final class VisitComparer {
  private final SectorTabulator tabulator;

  /** Makes a comparer that measures sectors with the given tabulator. */
  public VisitComparer(SectorTabulator tabulator) {
    this.tabulator = Objects.requireNonNull(tabulator, "tabulator");
  }

  /**
   * Returns the change from one visit to another, or why it is refused.
   *
   * @param baseline the visit compared with
   * @param followUp the visit compared; on the same lattice, each about its own landmark
   * @param grid the sectors
   * @param minimumCoverage share of a sector, above 0 and up to 1, that both visits must cover
   */
  public VisitChange compare(
      VisitMap baseline, VisitMap followUp, SectorGrid grid, double minimumCoverage) {
    Optional<VisitChange.Refused> obstacle = Comparability.obstacle(baseline, followUp);
    if (obstacle.isPresent()) {
      return obstacle.get();
    }
    ThicknessMap before = where(baseline.map(), followUp.map());
    ThicknessMap after = where(followUp.map(), baseline.map());
    SectorTable first = tabulator.tabulate(before, grid, minimumCoverage);
    SectorTable second = tabulator.tabulate(after, grid, minimumCoverage);
    List<SectorChange> changes = new ArrayList<>();
    for (int i = 0; i < first.sectors().size(); i++) {
      changes.add(pair(first.sectors().get(i), second.sectors().get(i)));
    }
    ChangeTable table =
        new ChangeTable(
            before.layer(),
            grid,
            before.laterality(),
            before.scan(),
            after.scan(),
            days(before, after),
            minimumCoverage,
            changes,
            pair(first.centrePoint(), second.centrePoint()));
    return new VisitChange.Compared(new DifferenceMap(baseline.map(), followUp.map()), table);
  }

  /** Returns a map with values only where another map has values too. */
  private static ThicknessMap where(ThicknessMap map, ThicknessMap other) {
    MapLattice lattice = map.lattice();
    float[] values = new float[lattice.cells()];
    for (int row = 0; row < lattice.rows(); row++) {
      for (int column = 0; column < lattice.columns(); column++) {
        values[row * lattice.columns() + column] =
            Float.isNaN(other.micrometres(row, column)) ? Float.NaN : map.micrometres(row, column);
      }
    }
    return new ThicknessMap(
        map.layer(), map.laterality(), lattice, map.centre(), map.scan(), map.document(), values);
  }

  /** Pairs two results over the same cells; both are measured or neither is. */
  private static SectorChange pair(SectorResult before, SectorResult after) {
    if (before instanceof Measured first && after instanceof Measured second) {
      return new SectorChange.MeasuredChange(
          first.sector(),
          first.meanUm(),
          second.meanUm(),
          first.areaMm2(),
          first.coveredFraction());
    }
    NotMeasurable missing = (NotMeasurable) before;
    return new SectorChange.NotMeasurableChange(
        missing.sector(),
        missing.reason(),
        missing.areaMm2(),
        missing.coveredFraction(),
        "at both visits together: " + missing.detail());
  }

  private static OptionalLong days(ThicknessMap before, ThicknessMap after) {
    Optional<LocalDate> from = before.scan().acquired().map(LocalDateTime::toLocalDate);
    Optional<LocalDate> to = after.scan().acquired().map(LocalDateTime::toLocalDate);
    return from.isPresent() && to.isPresent()
        ? OptionalLong.of(ChronoUnit.DAYS.between(from.get(), to.get()))
        : OptionalLong.empty();
  }
}
