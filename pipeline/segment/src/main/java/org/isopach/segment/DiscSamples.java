package org.isopach.segment;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMap;

/**
 * How much the columns of a scan's frames look like the optic disc, and where they lie.
 *
 * <p>A share is the expected number of a column's cells that show the disc, over that of cells that
 * show the disc or what lies there outside of it. Weights are the area on the fundus that a column
 * stands for, in units of one scan: radial frames lie closer together near their hub.
 */
final class DiscSamples {
  private static final Set<Tissue> DISC = EnumSet.of(Tissue.DISC);
  private static final Set<Tissue> LAYERS = EnumSet.range(Tissue.RNFL, Tissue.BRUCH);
  private static final Set<Tissue> AROUND_MEMBRANE = EnumSet.range(Tissue.MYOID, Tissue.SCLERA);
  private static final double ABOVE_MICROMETRES = 40;
  private static final double BELOW_MICROMETRES = 70;
  private static final double LEAST_TISSUE_ROWS = 3;
  private static final double LEAST_HUB_MM = 0.05;

  private double[] x = new double[1024];
  private double[] y = new double[1024];
  private double[] share = new double[1024];
  private double[] weight = new double[1024];
  private int count;

  /** Makes an empty collection. */
  DiscSamples() {}

  /** Gathers whole columns of frames that may be trusted. */
  static DiscSamples ofColumns(LoadedScan loaded, QualityMeter meter, ScanPath path) {
    return gathered(loaded, meter, path, (map, frame) -> shares(map.sums(DISC), map.sums(LAYERS)));
  }

  /**
   * Gathers the parts of columns that lie about where Bruch's membrane is or would be: it ends at
   * the opening, while the nerve fibres above it run on.
   *
   * @param contour about where the disc ends
   */
  static DiscSamples ofMembrane(
      LoadedScan loaded,
      QualityMeter meter,
      ScanPath path,
      BoundarySurface membrane,
      FittedContour contour) {
    double row = loaded.tissueRowMicrometres();
    int above = (int) Math.round(ABOVE_MICROMETRES / row);
    int count = above + (int) Math.round(BELOW_MICROMETRES / row);
    return gathered(
        loaded,
        meter,
        path,
        (map, frame) -> {
          MembraneCourse course = MembraneCourse.of(membrane, frame, path, contour).orElse(null);
          if (course == null) {
            return new float[0];
          }
          int[] first = new int[map.columns()];
          for (int c = 0; c < first.length; c++) {
            double depth = course.depthPx(map.ascan(c), path.ascans());
            first[c] = (int) Math.round(map.row(depth)) - above;
          }
          return shares(sums(map, DISC, first, count), sums(map, AROUND_MEMBRANE, first, count));
        });
  }

  /**
   * Gathers the A-scans of small pictures of the membrane.
   *
   * @param openShares how likely each lies in the opening, from 0 to 1
   */
  static DiscSamples ofPatches(MembranePatches patches, float[] openShares, ScanPath path) {
    DiscSamples samples = new DiscSamples();
    for (int i = 0; i < patches.count(); i++) {
      FundusPoint place = path.point(patches.frame(i), patches.ascan(i));
      samples.add(place, openShares[i], area(path, place));
    }
    return samples;
  }

  /** Says how much each column of a frame looks like the disc; NaN or no entry where unknown. */
  private interface Shares {
    float[] of(TissueMap map, int frame);
  }

  private static DiscSamples gathered(
      LoadedScan loaded, QualityMeter meter, ScanPath path, Shares shares) {
    DiscSamples samples = new DiscSamples();
    TissueMap[] maps = loaded.tissues();
    for (int f = 0; f < maps.length; f++) {
      if (maps[f] != null && meter.trusts(f)) {
        samples.add(maps[f], shares.of(maps[f], f), f, path);
      }
    }
    return samples;
  }

  private static float[] shares(float[] disc, float[] other) {
    float[] shares = new float[disc.length];
    for (int c = 0; c < shares.length; c++) {
      float tissue = disc[c] + other[c];
      shares[c] = tissue >= LEAST_TISSUE_ROWS ? disc[c] / tissue : Float.NaN;
    }
    return shares;
  }

  /** Returns for each column the expected number of some of its cells that show some tissues. */
  private static float[] sums(TissueMap map, Set<Tissue> tissues, int[] first, int count) {
    float[] cells = new float[map.columns() * count];
    for (Tissue tissue : tissues) {
      map.add(tissue, 1, first, count, cells);
    }
    float[] sums = new float[map.columns()];
    for (int i = 0; i < cells.length; i++) {
      sums[i / count] += cells[i];
    }
    return sums;
  }

  private void add(TissueMap map, float[] shares, int frame, ScanPath path) {
    for (int c = 0; c < shares.length; c++) {
      if (!Float.isNaN(shares[c])) {
        FundusPoint place = place(path, frame, map.ascan(c));
        add(place, shares[c], area(path, place));
      }
    }
  }

  private static double area(ScanPath path, FundusPoint place) {
    return path.pattern() == ScanPattern.RADIAL
        ? Math.max(LEAST_HUB_MM, place.distanceMm(path.middle()))
        : 1;
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
