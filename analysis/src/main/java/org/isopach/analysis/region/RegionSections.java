package org.isopach.analysis.region;

import java.util.Optional;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.ScanPath;

/** Areas within frames: height along the A-scan times half the way to either neighbour. */
final class RegionSections {
  private static final double MM_PER_UM = 1e-3;

  private RegionSections() {}

  /** Returns the area of each run in mm². */
  static double[] ofRuns(RegionRuns runs, ScanPath path, AxialScale axial) {
    double[] areas = new double[runs.count];
    for (int r = 0; r < runs.count; r++) {
      double width = widthMm(path, runs.column[r] / path.ascans(), runs.column[r] % path.ascans());
      areas[r] = axial.toMicrometres(runs.height(r)) * MM_PER_UM * width;
    }
    return areas;
  }

  /** Returns the frame with the largest sum, the first of equals; empty when there is no run. */
  static Optional<RegionTable.Section> largest(RegionRuns runs, double[] runMm2, ScanPath path) {
    double[] frames = new double[path.frames()];
    for (int r = 0; r < runs.count; r++) {
      frames[runs.column[r] / path.ascans()] += runMm2[r];
    }
    int best = 0;
    for (int f = 1; f < frames.length; f++) {
      best = frames[f] > frames[best] ? f : best;
    }
    return frames[best] > 0
        ? Optional.of(new RegionTable.Section(best, frames[best]))
        : Optional.empty();
  }

  private static double widthMm(ScanPath path, int frame, int ascan) {
    double width = 0;
    if (ascan > 0) {
      width += path.point(frame, ascan).distanceMm(path.point(frame, ascan - 1)) / 2;
    }
    if (ascan < path.ascans() - 1) {
      width += path.point(frame, ascan).distanceMm(path.point(frame, ascan + 1)) / 2;
    }
    return width;
  }
}
