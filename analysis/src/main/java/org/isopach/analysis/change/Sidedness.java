package org.isopach.analysis.change;

import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;

/**
 * Compares what two maps have more on one side of the centre than on the other.
 *
 * <p>In health the nasal side is the thicker one, in every scan of one eye on the same side of the
 * picture. A follow-up in which the sides have changed places is of the other eye, or was turned.
 * Limits are ours.
 */
final class Sidedness {
  private static final double LEAST_UM = 5;
  private static final double MOST_LEFT = 0.6;
  private static final double LEAST_SHARE = 0.25;

  private Sidedness() {}

  /**
   * Returns whether the uneven parts, (t(x, y) - t(-x, y)) / 2, of two maps on one lattice are of
   * at least 5 µm root mean square each and cancel: their sum is at most 0.6 of either.
   */
  static boolean opposite(ThicknessMap a, ThicknessMap b) {
    MapLattice lattice = a.lattice();
    double aa = 0;
    double bb = 0;
    double rest = 0;
    int count = 0;
    for (int row = 0; row < lattice.rows(); row++) {
      for (int column = 0; column < lattice.columns() / 2; column++) {
        double one = uneven(a, row, column);
        double other = uneven(b, row, column);
        if (!Double.isNaN(one) && !Double.isNaN(other)) {
          aa += one * one;
          bb += other * other;
          rest += (one + other) * (one + other);
          count++;
        }
      }
    }
    boolean enough = count > LEAST_SHARE * lattice.cells() / 2;
    double least = LEAST_UM * LEAST_UM * count;
    double most = MOST_LEFT * MOST_LEFT * Math.min(aa, bb);
    return enough && Math.min(aa, bb) >= least && rest <= most;
  }

  private static double uneven(ThicknessMap map, int row, int column) {
    int mirrored = map.lattice().columns() - 1 - column;
    return ((double) map.micrometres(row, column) - map.micrometres(row, mirrored)) / 2;
  }
}
