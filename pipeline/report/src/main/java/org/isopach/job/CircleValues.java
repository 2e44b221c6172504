package org.isopach.job;

import java.util.Arrays;
import java.util.Comparator;
import java.util.stream.IntStream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscAngle;

/**
 * Reads what is known of a scan's A-scans, beside thickness, along the circle of its profile: one
 * value for each of {@link CircleProfile#SAMPLES} angles from the horizontal.
 */
@FunctionalInterface
interface CircleValues {
  /**
   * Returns the values along the circle.
   *
   * @param ascans one for each A-scan, index {@code frame * ascans + ascan}; NaN where none
   * @return NaN where none
   */
  double[] of(double[] ascans);

  /** Returns a reader of a scan along a circle: of the nearest A-scan, averaged over frames. */
  static CircleValues along(ScanPath path, FundusPoint centre, Laterality eye) {
    int[][] nearest = new int[path.frames()][];
    for (int f = 0; f < nearest.length; f++) {
      nearest[f] = nearest(path, f, centre, eye);
    }
    return ascans -> {
      double[] values = new double[CircleProfile.SAMPLES];
      for (int i = 0; i < values.length; i++) {
        int sample = i;
        values[i] =
            Arrays.stream(nearest)
                .mapToDouble(frame -> ascans[frame[sample]])
                .filter(value -> !Double.isNaN(value))
                .average()
                .orElse(Double.NaN);
      }
      return values;
    };
  }

  private static int[] nearest(ScanPath path, int frame, FundusPoint centre, Laterality eye) {
    int n = path.ascans();
    double[] degrees = new double[n];
    for (int a = 0; a < n; a++) {
      degrees[a] = DiscAngle.ofDegrees(path.point(frame, a), centre, eye);
    }
    int[] order =
        IntStream.range(0, n)
            .boxed()
            .sorted(Comparator.comparingDouble(a -> degrees[a]))
            .mapToInt(Integer::intValue)
            .toArray();
    int[] nearest = new int[CircleProfile.SAMPLES];
    int k = 0;
    for (int i = 0; i < nearest.length; i++) {
      double angle = i * DiscAngle.FULL_TURN / nearest.length;
      while (k < n && degrees[order[k]] < angle) {
        k++;
      }
      int after = order[k % n];
      int before = order[(k + n - 1) % n];
      double ahead = Math.abs(DiscAngle.signed(degrees[after] - angle));
      double behind = Math.abs(DiscAngle.signed(degrees[before] - angle));
      nearest[i] = frame * n + (behind < ahead ? before : after);
    }
    return nearest;
  }

  /** Returns a reader of a circle in a volume, by the rules of maps; of the nearest cell. */
  static CircleValues in(
      ScanPath path, Landmark centre, double diameterMm, Laterality eye, MapLattice lattice) {
    MapInterpolator interpolator = new MapInterpolator(InterpolationRules.DEFAULT);
    return ascans -> {
      float[] cells = interpolator.interpolate(path, centre, ascans, lattice);
      double[] values = new double[CircleProfile.SAMPLES];
      for (int i = 0; i < values.length; i++) {
        double angle = i * DiscAngle.FULL_TURN / values.length;
        FundusPoint at = DiscAngle.place(new FundusPoint(0, 0), diameterMm / 2, angle, eye);
        long column = Math.round((at.xMm() - lattice.firstXMm()) / lattice.stepMm());
        long row = Math.round((at.yMm() - lattice.firstYMm()) / lattice.stepMm());
        boolean inside =
            column >= 0 && column < lattice.columns() && row >= 0 && row < lattice.rows();
        values[i] = inside ? cells[(int) (row * lattice.columns() + column)] : Double.NaN;
      }
      return values;
    };
  }
}
