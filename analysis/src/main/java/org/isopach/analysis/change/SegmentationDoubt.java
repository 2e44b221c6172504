package org.isopach.analysis.change;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;

/**
 * How unsure the two boundaries of a layer are, as a variance in µm².
 *
 * <p>A confidence is the probability of a depth to lie within {@value #WITHIN_UM} µm of the truth.
 * An error of normal distribution that is within w with probability c has the standard deviation w
 * / z((1 + c) / 2). It measures doubt for comparing scans; it is not the error of a mean, most of
 * which averages out. Ours.
 */
public final class SegmentationDoubt {
  /** 2 px of 3.87 µm, for which the confidence is calibrated. */
  public static final double WITHIN_UM = 7.74;

  private static final double MOST_CONFIDENT = 0.995;
  private static final int STEPS = 1000;
  private static final double[] VARIANCE = table();

  private SegmentationDoubt() {}

  /** Returns the doubt of one boundary of a confidence from 0 to 1, in µm². */
  public static double ofConfidence(double confidence) {
    return VARIANCE[(int) Math.round(Math.max(0, Math.min(1, confidence)) * STEPS)];
  }

  /**
   * Returns the mean doubt over the A-scans of each sector and, as the total, of all sectors.
   *
   * @param path where the A-scans lie, mm
   * @param centre the grid's centre in the path's coordinates
   * @param minimumConfidence A-scans below it take no part, as in the maps
   * @return by sector name; sectors without A-scans are missing
   */
  public static Map<String, Double> of(
      ScanPath path,
      FundusPoint centre,
      BoundarySet boundaries,
      Layer layer,
      SectorGrid grid,
      Laterality laterality,
      double minimumConfidence) {
    BoundarySurface inner = boundaries.surface(layer.inner()).orElseThrow();
    BoundarySurface outer = boundaries.surface(layer.outer()).orElseThrow();
    List<Sector> sectors = grid.sectors();
    double[] sum = new double[sectors.size() + 1];
    int[] count = new int[sectors.size() + 1];
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a < path.ascans(); a++) {
        double low = Math.min(inner.confidence(f, a), outer.confidence(f, a));
        int at = low < minimumConfidence ? -1 : sector(path, centre, laterality, sectors, f, a);
        if (at >= 0) {
          double doubt =
              ofConfidence(inner.confidence(f, a)) + ofConfidence(outer.confidence(f, a));
          sum[at] += doubt;
          count[at]++;
          sum[sectors.size()] += doubt;
          count[sectors.size()]++;
        }
      }
    }
    Map<String, Double> means = new LinkedHashMap<>();
    for (int i = 0; i <= sectors.size(); i++) {
      if (count[i] > 0) {
        String name = i < sectors.size() ? sectors.get(i).name() : SectorGrid.TOTAL;
        means.put(name, sum[i] / count[i]);
      }
    }
    return Collections.unmodifiableMap(means);
  }

  private static int sector(
      ScanPath path,
      FundusPoint centre,
      Laterality laterality,
      List<Sector> sectors,
      int frame,
      int ascan) {
    double nasal = laterality.nasalSign() * (path.xMm(frame, ascan) - centre.xMm());
    double superior = centre.yMm() - path.yMm(frame, ascan);
    for (int i = 0; i < sectors.size(); i++) {
      if (sectors.get(i).contains(nasal, superior)) {
        return i;
      }
    }
    return -1;
  }

  private static double[] table() {
    NormalDistribution normal = new NormalDistribution(null, 0, 1);
    double[] variance = new double[STEPS + 1];
    for (int i = 0; i <= STEPS; i++) {
      double c = Math.max(0.01, Math.min(MOST_CONFIDENT, (double) i / STEPS));
      double sd = WITHIN_UM / normal.inverseCumulativeProbability((1 + c) / 2);
      variance[i] = sd * sd;
    }
    return variance;
  }
}
