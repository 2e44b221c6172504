package org.isopach.segment;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMap;

/**
 * How much the columns of a scan's frames look like the optic disc, and where they lie.
 *
 * <p>A share is the expected number of a column's cells that show the disc, over that of cells that
 * show the disc or retinal layers. Weights are the area on the fundus that a column stands for, in
 * units of one scan: radial frames lie closer together near their hub.
 */
final class DiscSamples {
  private static final Set<Tissue> LAYERS = EnumSet.range(Tissue.RNFL, Tissue.BRUCH);
  private static final Set<Tissue> DISC = EnumSet.of(Tissue.DISC);
  private static final double LEAST_TISSUE_ROWS = 3;
  private static final double LEAST_HUB_MM = 0.05;

  private double[] x = new double[1024];
  private double[] y = new double[1024];
  private double[] share = new double[1024];
  private double[] weight = new double[1024];
  private int count;

  /** Makes an empty collection. */
  DiscSamples() {}

  /** Gathers the columns of frames that may be trusted. */
  static DiscSamples of(LoadedScan loaded, QualityMeter meter, ScanPath path) {
    DiscSamples samples = new DiscSamples();
    TissueMap[] maps = loaded.tissues();
    for (int f = 0; f < maps.length; f++) {
      if (maps[f] != null && meter.trusts(f)) {
        samples.add(maps[f], f, path);
      }
    }
    return samples;
  }

  private void add(TissueMap map, int frame, ScanPath path) {
    float[] disc = map.sums(DISC);
    float[] layers = map.sums(LAYERS);
    FundusPoint hub = path.middle();
    boolean radial = path.pattern() == ScanPattern.RADIAL;
    for (int c = 0; c < map.columns(); c++) {
      double tissue = disc[c] + layers[c];
      if (tissue >= LEAST_TISSUE_ROWS) {
        FundusPoint place = place(path, frame, map.ascan(c));
        double area = radial ? Math.max(LEAST_HUB_MM, place.distanceMm(hub)) : 1;
        add(place, disc[c] / tissue, area);
      }
    }
  }

  /** Returns where an A-scan lies that may fall between two. */
  private static FundusPoint place(ScanPath path, int frame, double ascan) {
    int left = (int) Math.max(0, Math.min(path.ascans() - 2.0, Math.floor(ascan)));
    double part = Math.max(0, Math.min(1, ascan - left));
    FundusPoint a = path.point(frame, left);
    FundusPoint b = path.point(frame, left + 1);
    return new FundusPoint(
        a.xMm() + part * (b.xMm() - a.xMm()), a.yMm() + part * (b.yMm() - a.yMm()));
  }

  /**
   * Adds a column.
   *
   * @param discShare how much it looks like the disc, from 0 to 1
   * @param area that it stands for, in units of the scan's other columns
   */
  void add(FundusPoint place, double discShare, double area) {
    if (count == x.length) {
      x = Arrays.copyOf(x, 2 * count);
      y = Arrays.copyOf(y, 2 * count);
      share = Arrays.copyOf(share, 2 * count);
      weight = Arrays.copyOf(weight, 2 * count);
    }
    x[count] = place.xMm();
    y[count] = place.yMm();
    share[count] = discShare;
    weight[count] = area;
    count++;
  }

  int count() {
    return count;
  }

  /** Returns x in mm, in the coordinates of the scan's path. */
  double xMm(int i) {
    return x[i];
  }

  /** Returns y in mm. */
  double yMm(int i) {
    return y[i];
  }

  /** Returns how much the column looks like the disc, from 0 to 1. */
  double share(int i) {
    return share[i];
  }

  double weight(int i) {
    return weight[i];
  }
}
