package org.isopach.analysis.asymmetry;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;

/**
 * Compares the two eyes of one patient, one on the mirror image of the other, fovea on fovea.
 *
 * <p>A sector's two means are over the cells that both eyes cover; it is measured when these make
 * up the coverage asked for. Safe for use by several threads.
 */
public final class EyePairComparer {
  /** Indexes are stated to three decimals at most. */
  private static final double SAME_INDEX = 5e-4;

  private final SectorTabulator tabulator;

  /** Makes a comparer that measures sectors with the given tabulator. */
  public EyePairComparer(SectorTabulator tabulator) {
    this.tabulator = Objects.requireNonNull(tabulator, "tabulator");
  }

  /**
   * Returns right minus left, or why it is refused.
   *
   * @param right the right eye, about its foveal pit
   * @param left the left eye, about its foveal pit, on the same lattice
   * @param grid the sectors
   * @param minimumCoverage share of a sector, above 0 and up to 1, that both eyes must cover
   */
  public EyePairResult compare(
      VisitMap right, VisitMap left, SectorGrid grid, double minimumCoverage) {
    Optional<String> obstacle = obstacle(right, left);
    if (obstacle.isPresent()) {
      return new EyePairResult.Refused(obstacle.get());
    }
    AsymmetryMap map = new AsymmetryMap(right.map(), left.map());
    List<SectorResult> ofRight = tabulated(right.map(), left.map(), grid, minimumCoverage);
    List<SectorResult> ofLeft = tabulated(left.map(), right.map(), grid, minimumCoverage);
    List<SectorAsymmetry> sectors = new ArrayList<>();
    for (int i = 0; i < ofRight.size(); i++) {
      sectors.add(pair(ofRight.get(i), ofLeft.get(i)));
    }
    return new EyePairResult.Compared(
        map,
        new AsymmetryTable(
            right.map().layer(), grid, right.map().scan(), left.map().scan(), sectors));
  }

  private static Optional<String> obstacle(VisitMap right, VisitMap left) {
    ThicknessMap one = right.map();
    ThicknessMap other = left.map();
    if (one.laterality() != Laterality.RIGHT || other.laterality() != Laterality.LEFT) {
      return Optional.of("needs one right and one left eye");
    }
    if (one.scan().patientId().isEmpty()
        || !one.scan().patientId().equals(other.scan().patientId())) {
      return Optional.of("both scans must name the same patient");
    }
    if (!one.layer().equals(other.layer()) || !one.lattice().equals(other.lattice())) {
      return Optional.of("the two eyes were not mapped alike");
    }
    if (!sameIndex(right.axial().refractiveIndex(), left.axial().refractiveIndex())) {
      return Optional.of("the two scans rest on different refractive indexes");
    }
    for (ThicknessMap map : List.of(one, other)) {
      if (map.centre().source() == Landmark.Source.SCAN_MIDDLE) {
        return Optional.of(
            "no foveal pit was found in the " + map.laterality().word() + " eye to lay them by");
      }
    }
    return Optional.empty();
  }

  private static boolean sameIndex(OptionalDouble a, OptionalDouble b) {
    return a.isPresent() == b.isPresent()
        && (a.isEmpty() || Math.abs(a.getAsDouble() - b.getAsDouble()) < SAME_INDEX);
  }

  /** Returns a map's sectors over the cells that the other eye covers in its mirror image. */
  private List<SectorResult> tabulated(
      ThicknessMap map, ThicknessMap other, SectorGrid grid, double minimumCoverage) {
    MapLattice lattice = map.lattice();
    int columns = lattice.columns();
    float[] values = new float[lattice.cells()];
    for (int row = 0; row < lattice.rows(); row++) {
      for (int column = 0; column < columns; column++) {
        boolean there = !Float.isNaN(other.micrometres(row, columns - 1 - column));
        values[row * columns + column] = there ? map.micrometres(row, column) : Float.NaN;
      }
    }
    ThicknessMap shared =
        new ThicknessMap(
            map.layer(),
            map.laterality(),
            lattice,
            map.centre(),
            map.scan(),
            map.document(),
            values);
    return tabulator.tabulate(shared, grid, minimumCoverage).sectors();
  }

  private static SectorAsymmetry pair(SectorResult right, SectorResult left) {
    if (right instanceof Measured one && left instanceof Measured other) {
      return new SectorAsymmetry.Given(
          one.sector(), one.meanUm(), other.meanUm(), one.areaMm2(), one.coveredFraction());
    }
    NotMeasurable missing = (NotMeasurable) (right instanceof Measured ? left : right);
    return new SectorAsymmetry.Missing(
        missing.sector(),
        missing.areaMm2(),
        missing.coveredFraction(),
        "in both eyes together: " + missing.detail());
  }
}
