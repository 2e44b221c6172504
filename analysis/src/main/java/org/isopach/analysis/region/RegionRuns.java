package org.isopach.analysis.region;

import java.util.Arrays;

/**
 * The unbroken runs of one kind along the A-scans of a scan, in the order of frame, A-scan, depth.
 *
 * <p>Run {@code i} holds the depths {@code first[i]} to {@code end[i] - 1} of A-scan {@code
 * column[i] % ascans} in frame {@code column[i] / ascans}.
 */
final class RegionRuns {
  final int count;
  final int[] column;
  final int[] first;
  final int[] end;

  private RegionRuns(int count, int[] column, int[] first, int[] end) {
    this.count = count;
    this.column = column;
    this.first = first;
    this.end = end;
  }

  static RegionRuns of(RegionLabels labels, RegionKind kind) {
    Collector runs = new Collector();
    for (int f = 0; f < labels.size().frames(); f++) {
      if (labels.any(f)) {
        addFrame(labels, f, kind.label(), runs);
      }
    }
    return runs.done();
  }

  private static void addFrame(RegionLabels labels, int frame, byte wanted, Collector runs) {
    int ascans = labels.size().ascans();
    int endDepth = labels.endDepth(frame);
    byte[] voxels = labels.frame(frame);
    for (int a = 0; a < ascans; a++) {
      int begun = -1;
      for (int d = labels.firstDepth(frame); d <= endDepth; d++) {
        boolean in = d < endDepth && voxels[d * ascans + a] == wanted;
        if (in && begun < 0) {
          begun = d;
        } else if (!in && begun >= 0) {
          runs.add(frame * ascans + a, begun, d);
          begun = -1;
        }
      }
    }
  }

  int height(int run) {
    return end[run] - first[run];
  }

  private static final class Collector {
    private int count;
    private int[] column = new int[64];
    private int[] first = new int[64];
    private int[] end = new int[64];

    void add(int where, int from, int to) {
      if (count == column.length) {
        column = Arrays.copyOf(column, 2 * count);
        first = Arrays.copyOf(first, 2 * count);
        end = Arrays.copyOf(end, 2 * count);
      }
      column[count] = where;
      first[count] = from;
      end[count++] = to;
    }

    RegionRuns done() {
      return new RegionRuns(count, column, first, end);
    }
  }
}
