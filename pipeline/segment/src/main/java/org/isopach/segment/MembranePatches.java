package org.isopach.segment;

import java.util.Arrays;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.quality.QualityRules;
import org.isopach.segment.tissue.MembraneModel;

/**
 * Small pictures at full resolution of the A-scans near a contour, about the depth at which Bruch's
 * membrane lies or, beyond its end, would lie: its course through the frame, moved for each
 * crossing of the contour to where the membrane was traced outside of it.
 */
final class MembranePatches {
  private static final double REACH_MM = 0.20;
  private static final double LEVEL_FROM_MM = 0.06;
  private static final double LEVEL_TO_MM = 0.30;
  private static final int LEAST_POINTS = 6;

  private final LoadedScan loaded;
  private final ScanPath path;
  private final BoundarySurface membrane;
  private final FittedContour contour;
  private final double micrometres;
  private float[] values = new float[256 * MembraneModel.VALUES];
  private int[] at = new int[256];
  private int count;

  private MembranePatches(
      LoadedScan loaded, ScanPath path, BoundarySurface membrane, FittedContour contour) {
    this.loaded = loaded;
    this.path = path;
    this.membrane = membrane;
    this.contour = contour;
    this.micrometres = loaded.scan().axial().micrometresPerPixel();
  }

  /**
   * Gathers the pictures of all frames that may be trusted.
   *
   * @param contour where the opening was found
   */
  static MembranePatches around(
      LoadedScan loaded,
      QualityMeter meter,
      ScanPath path,
      BoundarySurface membrane,
      FittedContour contour) {
    MembranePatches patches = new MembranePatches(loaded, path, membrane, contour);
    for (int f = 0; f < path.frames(); f++) {
      if (meter.trusts(f)) {
        patches.addFrame(f);
      }
    }
    return patches;
  }

  private void addFrame(int frame) {
    MembraneCourse course = MembraneCourse.of(membrane, frame, path, contour).orElse(null);
    if (course == null) {
      return;
    }
    int first = -1;
    for (int a = 0; a <= path.ascans(); a++) {
      boolean near =
          a < path.ascans() && Math.abs(contour.outsideMm(path.point(frame, a))) <= REACH_MM;
      if (near && first < 0) {
        first = a;
      } else if (!near && first >= 0) {
        addCrossing(frame, course, first, a);
        first = -1;
      }
    }
  }

  private void addCrossing(int frame, MembraneCourse course, int first, int end) {
    double shift = shiftPx(frame, course, first, end);
    if (Double.isNaN(shift)) {
      return;
    }
    double[] depths = new double[path.ascans()];
    for (int a = 0; a < depths.length; a++) {
      depths[a] = course.depthPx(a, path.ascans()) + shift;
    }
    for (int a = first; a < end; a++) {
      add(frame, a, depths);
    }
  }

  /** Mean distance of the traced membrane from its course just outside; NaN where not traced. */
  private double shiftPx(int frame, MembraneCourse course, int first, int end) {
    double sum = 0;
    int n = 0;
    int margin = end - first;
    int last = Math.min(path.ascans(), end + margin);
    for (int a = Math.max(0, first - margin); a < last; a++) {
      double away = contour.outsideMm(path.point(frame, a));
      if (away >= LEVEL_FROM_MM
          && away <= LEVEL_TO_MM
          && membrane.confidence(frame, a) >= QualityRules.DEFAULT.leastConfidence()) {
        sum += membrane.depthPx(frame, a) - course.depthPx(a, path.ascans());
        n++;
      }
    }
    return n < LEAST_POINTS ? Double.NaN : sum / n;
  }

  private void add(int frame, int ascan, double[] depths) {
    if (count == at.length) {
      at = Arrays.copyOf(at, 2 * count);
      values = Arrays.copyOf(values, 2 * count * MembraneModel.VALUES);
    }
    at[count] = frame * path.ascans() + ascan;
    FrameView view = loaded.view(frame);
    float[] one = new float[1];
    double step = columnStep(frame, ascan);
    for (int c = 0; c < MembraneModel.COLUMNS; c++) {
      long away = Math.round((c - MembraneModel.COLUMNS / 2) * step);
      int a = (int) Math.max(0, Math.min(path.ascans() - 1, ascan + away));
      for (int r = 0; r < MembraneModel.ROWS; r++) {
        double down = (r - MembraneModel.MEMBRANE_ROW) * MembraneModel.ROW_MICROMETRES;
        view.values(a, (float) (depths[a] + down / micrometres), 1, one);
        values[count * MembraneModel.VALUES + r * MembraneModel.COLUMNS + c] = one[0];
      }
    }
    count++;
  }

  /** How many A-scans two columns of a picture are apart. */
  private double columnStep(int frame, int ascan) {
    int left = Math.max(0, ascan - 1);
    int right = Math.min(path.ascans() - 1, ascan + 1);
    double mm = path.point(frame, left).distanceMm(path.point(frame, right)) / (right - left);
    return MembraneModel.COLUMN_MICROMETRES / (1000 * mm);
  }

  int count() {
    return count;
  }

  int frame(int i) {
    return at[i] / path.ascans();
  }

  int ascan(int i) {
    return at[i] % path.ascans();
  }

  /** Returns the grey values of all pictures, one after the other. */
  float[] values() {
    return Arrays.copyOf(values, count * MembraneModel.VALUES);
  }
}
