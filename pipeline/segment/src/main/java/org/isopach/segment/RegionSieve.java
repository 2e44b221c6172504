package org.isopach.segment;

import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.segment.tissue.TissueMap;

/**
 * Takes small and doubtful patches off a frame's labels. A patch is a set of pixels of one kind
 * that touch by their sides.
 */
final class RegionSieve {
  /**
   * Area in mm² that a patch must have: a tenth of the cysts measured in real frames are smaller.
   */
  private static final double LEAST_MM2 = 0.0018;

  /** Probability that some cell of a patch must reach. */
  private static final float LEAST_PEAK = 0.85f;

  private final ScanSize size;
  private final int leastPixels;
  private final int[] queue;

  /** Makes a sieve. */
  RegionSieve(ScanSize size, double ascanMicrometres, double depthMicrometres) {
    this.size = size;
    this.leastPixels = (int) Math.ceil(LEAST_MM2 * 1e6 / (ascanMicrometres * depthMicrometres));
    this.queue = new int[size.framePixels()];
  }

  /** Clears the labels of patches that are too small or too doubtful, in place. */
  void sift(byte[] labels, TissueMap map) {
    boolean[] seen = new boolean[labels.length];
    for (int i = 0; i < labels.length; i++) {
      if (labels[i] != 0 && !seen[i]) {
        int count = fill(labels, seen, i);
        if (count < leastPixels || peak(map, labels[i], count) < LEAST_PEAK) {
          for (int k = 0; k < count; k++) {
            labels[queue[k]] = 0;
          }
        }
      }
    }
  }

  /** Collects a patch in the queue; returns its number of pixels. */
  private int fill(byte[] labels, boolean[] seen, int start) {
    int ascans = size.ascans();
    int count = 1;
    queue[0] = start;
    seen[start] = true;
    for (int k = 0; k < count; k++) {
      int at = queue[k];
      int a = at % ascans;
      int[] beside = {
        a > 0 ? at - 1 : -1,
        a < ascans - 1 ? at + 1 : -1,
        at - ascans,
        at + ascans < labels.length ? at + ascans : -1
      };
      for (int next : beside) {
        if (next >= 0 && !seen[next] && labels[next] == labels[start]) {
          seen[next] = true;
          queue[count++] = next;
        }
      }
    }
    return count;
  }

  private float peak(TissueMap map, byte label, int count) {
    RegionKind kind = RegionKind.ofLabel(label).orElseThrow();
    float peak = 0;
    for (int k = 0; k < count; k++) {
      int depth = queue[k] / size.ascans();
      int row = (int) Math.round(map.row(depth));
      int column = (int) Math.round(map.column(queue[k] % size.ascans()));
      peak =
          Math.max(
              peak,
              map.probability(
                  RegionPainter.TISSUES.get(kind), Math.min(map.rows() - 1, row), column));
    }
    return peak;
  }
}
