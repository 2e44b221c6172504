package org.isopach.analysis.region;

import java.util.Arrays;
import org.isopach.analysis.geometry.AxialScale;

/**
 * How much of one kind each A-scan holds. Index {@code frame * ascans + ascan}; µm; NaN where the
 * A-scan was not looked at.
 */
final class RegionColumns {
  private final double[] heightUm;
  private final double[] tallestUm;

  private RegionColumns(double[] heightUm, double[] tallestUm) {
    this.heightUm = heightUm;
    this.tallestUm = tallestUm;
  }

  static RegionColumns of(RegionRuns runs, boolean[] lookedAt, AxialScale axial) {
    double[] height = new double[lookedAt.length];
    double[] tallest = new double[lookedAt.length];
    for (int i = 0; i < lookedAt.length; i++) {
      height[i] = lookedAt[i] ? 0 : Double.NaN;
    }
    for (int r = 0; r < runs.count; r++) {
      double run = axial.toMicrometres(runs.height(r));
      height[runs.column[r]] += run;
      tallest[runs.column[r]] = Math.max(tallest[runs.column[r]], run);
    }
    return new RegionColumns(height, tallest);
  }

  /** Returns the sum of all runs of each A-scan, NaN where it was not looked at. */
  double[] heightUm() {
    return heightUm;
  }

  /** Returns 1 for every A-scan with any, 0 for those without, NaN where not looked at. */
  double[] presence() {
    return Arrays.stream(heightUm).map(h -> h > 0 ? 1 : h).toArray();
  }

  /** Returns the tallest run of an A-scan, 0 where there is none. */
  double tallestUm(int column) {
    return tallestUm[column];
  }

  /** Returns whether no A-scan holds any. */
  boolean isEmpty() {
    return tallestUm() == 0;
  }

  double tallestUm() {
    return Arrays.stream(tallestUm).max().orElse(0);
  }

  double lookedAtFraction() {
    long looked = Arrays.stream(heightUm).filter(h -> !Double.isNaN(h)).count();
    return (double) looked / heightUm.length;
  }
}
