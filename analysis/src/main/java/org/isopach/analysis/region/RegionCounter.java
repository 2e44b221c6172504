package org.isopach.analysis.region;

import java.util.Arrays;
import java.util.Optional;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.FrameNeighbours;
import org.isopach.analysis.map.FramePair;

/**
 * Joins runs into separate regions and counts those large enough. Within a frame, runs of
 * neighbouring A-scans belong together where they touch, corners included; from frame to
 * neighbouring frame where they overlap at opposite A-scans, depth counted from Bruch's membrane.
 */
final class RegionCounter {
  /** The section, in mm², that a region must have in some frame to be counted. */
  static final double COUNTABLE_MM2 = 0.002;

  private final RegionRuns runs;
  private final ScanPath path;
  private final Optional<BoundarySurface> reference;
  private final int[] starts;
  private final int[] parent;

  private RegionCounter(RegionRuns runs, ScanPath path, BoundarySet boundaries) {
    this.runs = runs;
    this.path = path;
    this.reference = boundaries.surface(Boundary.BM);
    this.starts = new int[path.frames() * path.ascans() + 1];
    this.parent = new int[runs.count];
    for (int r = 0; r < runs.count; r++) {
      starts[runs.column[r] + 1]++;
      parent[r] = r;
    }
    Arrays.parallelPrefix(starts, Integer::sum);
  }

  /** Returns the number of regions whose section reaches {@link #COUNTABLE_MM2} in some frame. */
  static int count(RegionRuns runs, double[] runMm2, ScanPath path, BoundarySet boundaries) {
    RegionCounter counter = new RegionCounter(runs, path, boundaries);
    counter.joinWithinFrames();
    counter.joinAcrossFrames();
    return counter.countable(runMm2);
  }

  private void joinWithinFrames() {
    int ascans = path.ascans();
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 1; a < ascans; a++) {
        join(f * ascans + a - 1, f * ascans + a, 0, 0);
      }
      if (path.pattern() == ScanPattern.CIRCLE) {
        join(f * ascans + ascans - 1, f * ascans, 0, 0);
      }
    }
  }

  private void joinAcrossFrames() {
    int ascans = path.ascans();
    for (FramePair pair : FrameNeighbours.of(path, frame -> true)) {
      for (int a = 0; a < ascans; a++) {
        int b = pair.opposite(a, ascans);
        join(
            pair.first() * ascans + a,
            pair.second() * ascans + b,
            shift(pair.first(), a, pair.second(), b),
            1);
      }
    }
  }

  /** Returns by how much deeper, in whole pixels, the eye lies in the second A-scan. */
  private int shift(int firstFrame, int firstAscan, int secondFrame, int secondAscan) {
    if (reference.isEmpty()) {
      return 0;
    }
    float first = reference.get().depthPx(firstFrame, firstAscan);
    float second = reference.get().depthPx(secondFrame, secondAscan);
    return Float.isNaN(first) || Float.isNaN(second) ? 0 : Math.round(second - first);
  }

  /**
   * Joins the runs of two A-scans.
   *
   * @param overlap pixels that two runs must have in common; 0 lets touching corners suffice
   */
  private void join(int one, int other, int shift, int overlap) {
    int j = starts[other];
    for (int i = starts[one]; i < starts[one + 1]; i++) {
      while (j < starts[other + 1] && runs.end[j] - shift < runs.first[i] + overlap) {
        j++;
      }
      for (int k = j;
          k < starts[other + 1] && runs.first[k] - shift + overlap <= runs.end[i];
          k++) {
        unite(i, k);
      }
    }
  }

  private void unite(int i, int k) {
    int a = root(i);
    int b = root(k);
    parent[Math.max(a, b)] = Math.min(a, b);
  }

  private int root(int run) {
    int at = run;
    while (parent[at] != at) {
      parent[at] = parent[parent[at]];
      at = parent[at];
    }
    return at;
  }

  private int countable(double[] runMm2) {
    double[] section = new double[runs.count];
    int[] frame = new int[runs.count];
    boolean[] large = new boolean[runs.count];
    int count = 0;
    for (int r = 0; r < runs.count; r++) {
      int region = root(r);
      int here = runs.column[r] / path.ascans();
      section[region] = frame[region] == here ? section[region] + runMm2[r] : runMm2[r];
      frame[region] = here;
      if (!large[region] && section[region] >= COUNTABLE_MM2) {
        large[region] = true;
        count++;
      }
    }
    return count;
  }
}
