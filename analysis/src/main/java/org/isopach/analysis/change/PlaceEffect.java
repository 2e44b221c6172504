package org.isopach.analysis.change;

import java.util.LinkedHashMap;
import java.util.Map;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;

/** What an error of place does to the means of sectors and to single cells. */
final class PlaceEffect {
  /** Sectors are measured at both visits already; a shift by some cells costs their rim. */
  private static final double ENOUGH = 0.5;

  private PlaceEffect() {}

  /**
   * Returns the mean square change in µm² of each sector's mean, the total included, when the grid
   * lies wrong by a normal error of the given standard deviation along each axis.
   *
   * <p>The grid is moved by plus and minus one standard deviation along both axes. Half the
   * difference a of the two changes is the linear part, half their sum b the quadratic part; for a
   * normal error the mean square is a² + 3b², added over the axes.
   *
   * @return by sector name; sectors that the moved grid does not measure are missing
   */
  static Map<String, Double> varianceUm2(
      ThicknessMap map, SectorGrid grid, SectorTabulator tabulator, double placeSdMm) {
    Map<String, Double> sum = new LinkedHashMap<>();
    for (int axis = 0; axis < 2; axis++) {
      double dx = axis == 0 ? placeSdMm : 0;
      double dy = axis == 0 ? 0 : placeSdMm;
      Map<String, Double> ahead = change(map, grid, tabulator, dx, dy);
      Map<String, Double> back = change(map, grid, tabulator, -dx, -dy);
      for (Map.Entry<String, Double> entry : ahead.entrySet()) {
        Double other = back.get(entry.getKey());
        if (other != null) {
          double linear = (entry.getValue() - other) / 2;
          double quadratic = (entry.getValue() + other) / 2;
          sum.merge(entry.getKey(), linear * linear + 3 * quadratic * quadratic, Double::sum);
        }
      }
    }
    return sum;
  }

  /** Returns the squared slope of what lies on a lattice, (µm/mm)², NaN where not known. */
  static float[] squaredSlope(float[] values, MapLattice lattice) {
    float[] slope = new float[values.length];
    int columns = lattice.columns();
    double width = 2 * lattice.stepMm();
    for (int i = 0; i < values.length; i++) {
      int row = i / columns;
      int column = i % columns;
      boolean inside = row > 0 && row + 1 < lattice.rows() && column > 0 && column + 1 < columns;
      if (!inside) {
        slope[i] = Float.NaN;
        continue;
      }
      double x = (values[i + 1] - values[i - 1]) / width;
      double y = (values[i + columns] - values[i - columns]) / width;
      slope[i] = (float) (x * x + y * y);
    }
    return slope;
  }

  private static Map<String, Double> change(
      ThicknessMap map, SectorGrid grid, SectorTabulator tabulator, double dx, double dy) {
    Map<String, Double> means = new LinkedHashMap<>();
    for (SectorResult result : tabulator.tabulate(moved(map, dx, dy), grid, ENOUGH).sectors()) {
      if (result instanceof Measured measured) {
        means.put(measured.sector(), measured.meanUm());
      }
    }
    return means;
  }

  /** Returns, cell by cell, the value some mm further on less the value here. */
  private static ThicknessMap moved(ThicknessMap map, double dx, double dy) {
    MapLattice lattice = map.lattice();
    double right = dx / lattice.stepMm();
    double down = dy / lattice.stepMm();
    float[] values = new float[lattice.cells()];
    for (int row = 0; row < lattice.rows(); row++) {
      for (int column = 0; column < lattice.columns(); column++) {
        values[row * lattice.columns() + column] =
            (float) (bilinear(map, row + down, column + right) - map.micrometres(row, column));
      }
    }
    return new ThicknessMap(
        map.layer(), map.laterality(), lattice, map.centre(), map.scan(), map.document(), values);
  }

  private static double bilinear(ThicknessMap map, double row, double column) {
    int r = (int) Math.floor(row);
    int c = (int) Math.floor(column);
    double v = row - r;
    double u = column - c;
    if (r < 0 || c < 0 || r + (v > 0 ? 1 : 0) >= map.lattice().rows()) {
      return Double.NaN;
    }
    if (c + (u > 0 ? 1 : 0) >= map.lattice().columns()) {
      return Double.NaN;
    }
    double upper = along(map, r, c, u);
    return v > 0 ? upper + v * (along(map, r + 1, c, u) - upper) : upper;
  }

  private static double along(ThicknessMap map, int row, int column, double share) {
    double left = map.micrometres(row, column);
    return share > 0 ? left + share * (map.micrometres(row, column + 1) - left) : left;
  }
}
