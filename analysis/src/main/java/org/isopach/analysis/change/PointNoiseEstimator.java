package org.isopach.analysis.change;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.map.MapLattice;

/**
 * Measures the noise of smoothed maps from pairs of repeats: spread in each sector, weight of the
 * tails, and how far it hangs together. All pairs must have one grid.
 */
final class PointNoiseEstimator {
  /** Standard deviation of the smoothing. */
  static final double SMOOTHING_MM = 0.18;

  private static final double FEWEST_CELLS = 100;
  private static final double LARGEST_LAG_MM = 1.5;
  private static final int ROW_STRIDE = 3;
  private static final double NORMAL_KURTOSIS = 3;
  private static final double HEAVIEST_TAIL = 4.2;

  /** Classes of place variance in µm², each twice as wide as the last; the last has no end. */
  private static final int CLASSES = 10;

  private static final double FIRST_CLASS_UM2 = 0.25;

  private final SectorCells cells = new SectorCells();
  private final Map<String, Double> doubt = new HashMap<>();
  private SectorGrid grid;
  private double stepMm;
  /* By sector and class of place variance: index sector * CLASSES + class. */
  private double[] count;
  private double[] squares;
  private double[] fourths;
  private double[] place;
  private double[] products;
  private double[] productSquares;

  /** Takes the difference of two repeats. */
  void add(RepeatPair pair) {
    DifferenceMap map = pair.compared().map();
    MapLattice lattice = map.lattice();
    begin(pair.compared().table().grid(), lattice);
    int[] sector = cells.of(lattice, grid, map.baseline().laterality());
    float[] smooth = SmoothMap.of(map.values(), lattice, SMOOTHING_MM);
    float[] slope =
        PlaceEffect.squaredSlope(
            SmoothMap.of(map.baselineValues(), lattice, SMOOTHING_MM), lattice);
    double placeVariance = pair.placeSdMm() * pair.placeSdMm();
    for (int i = 0; i < smooth.length; i++) {
      if (sector[i] == SectorCells.OUTSIDE || Float.isNaN(smooth[i])) {
        smooth[i] = Float.NaN;
        continue;
      }
      double square = (double) smooth[i] * smooth[i];
      double owed = Float.isNaN(slope[i]) ? 0 : placeVariance * slope[i];
      int at = sector[i] * CLASSES + classOf(owed);
      count[at]++;
      squares[at] += square;
      fourths[at] += square * square;
      place[at] += owed;
    }
    correlate(smooth, lattice);
    pair.greaterDoubt().forEach((name, value) -> doubt.merge(name, value, Math::max));
  }

  private static int classOf(double variance) {
    int found = 0;
    for (double end = FIRST_CLASS_UM2; variance > end && found < CLASSES - 1; end *= 2) {
      found++;
    }
    return found;
  }

  private void begin(SectorGrid of, MapLattice lattice) {
    if (grid == null) {
      grid = of;
      stepMm = lattice.stepMm();
      int sectors = of.sectors().size() * CLASSES;
      count = new double[sectors];
      squares = new double[sectors];
      fourths = new double[sectors];
      place = new double[sectors];
      int lags = (int) Math.round(LARGEST_LAG_MM / stepMm);
      products = new double[lags + 1];
      productSquares = new double[lags + 1];
    }
    if (!grid.equals(of) || stepMm != lattice.stepMm()) {
      throw new IllegalArgumentException("all repeats must be mapped on one grid");
    }
  }

  /** Adds products of cells a number of columns or rows apart, and their squares at lag 0. */
  private void correlate(float[] smooth, MapLattice lattice) {
    int columns = lattice.columns();
    for (int row = 0; row < lattice.rows(); row += ROW_STRIDE) {
      for (int column = 0; column < columns; column++) {
        float here = smooth[row * columns + column];
        if (Float.isNaN(here)) {
          continue;
        }
        for (int lag = 0; lag < products.length; lag++) {
          multiply(here, column + lag < columns ? smooth[row * columns + column + lag] : 0, lag);
          int below = row + lag;
          multiply(here, below < lattice.rows() ? smooth[below * columns + column] : 0, lag);
        }
      }
    }
  }

  private void multiply(float here, float there, int lag) {
    if (!Float.isNaN(there) && there != 0) {
      products[lag] += (double) here * there;
      productSquares[lag] += ((double) here * here + (double) there * there) / 2;
    }
  }

  /** Returns what was found; empty when there was hardly a cell with a value. */
  Optional<PointNoise> finish(NoiseSource source, String reference) {
    if (grid == null) {
      return Optional.empty();
    }
    Map<String, PointNoise.Spot> spots = new LinkedHashMap<>();
    List<Sector> sectors = grid.sectors();
    for (int i = 0; i < sectors.size(); i++) {
      double n = sum(count, i);
      double variance = sum(squares, i) / n;
      if (n >= FEWEST_CELLS && variance > 0) {
        String name = sectors.get(i).name();
        spots.put(
            name,
            new PointNoise.Spot(
                Math.sqrt(variance / 2), sum(place, i) / n, doubt.getOrDefault(name, 0.0)));
      }
    }
    return spots.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new PointNoise(spots, SMOOTHING_MM, tail(), correlationLength(), source, reference));
  }

  private static double sum(double[] values, int sector) {
    double sum = 0;
    for (int k = 0; k < CLASSES; k++) {
      sum += values[sector * CLASSES + k];
    }
    return sum;
  }

  /** The Student distribution of n degrees of freedom has the excess kurtosis 6 / (n - 4). */
  private double tail() {
    double sum = 0;
    double cellsSeen = 0;
    for (int i = 0; i < count.length; i++) {
      if (count[i] >= FEWEST_CELLS && squares[i] > 0) {
        double variance = squares[i] / count[i];
        sum += fourths[i] / (variance * variance);
        cellsSeen += count[i];
      }
    }
    double excess = sum / cellsSeen - NORMAL_KURTOSIS;
    return excess > 0 ? Math.max(HEAVIEST_TAIL, 4 + 6 / excess) : Double.POSITIVE_INFINITY;
  }

  private double correlationLength() {
    double before = 1;
    for (int lag = 1; lag < products.length; lag++) {
      double now = productSquares[lag] > 0 ? products[lag] / productSquares[lag] : 0;
      if (now <= 1 / Math.E) {
        return (lag - 1 + (before - 1 / Math.E) / (before - now)) * stepMm;
      }
      before = now;
    }
    return LARGEST_LAG_MM;
  }
}
