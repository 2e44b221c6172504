package org.isopach.segment;

import java.util.Arrays;

/** A row for every column of every coarse frame: a surface found on the coarse grid. */
final class CoarseSurface {
  private final int[][] rows;

  CoarseSurface(int frames) {
    this.rows = new int[frames][];
  }

  /** Sets the path of one frame; the array is kept. */
  void set(int frame, int[] path) {
    rows[frame] = path;
  }

  /** Returns whether a frame has a path. */
  boolean has(int frame) {
    return rows[frame] != null;
  }

  /** Returns the path of a frame. */
  int[] path(int frame) {
    return rows[frame];
  }

  /**
   * Returns where the neighbours of a frame, each moved by its median distance, expect the surface;
   * NaN everywhere when no neighbour within {@code reach} frames has a path.
   *
   * <p>The move takes out the eye's axial motion between frames, which is one number per frame.
   */
  float[] expectedFromNeighbours(int frame, int reach) {
    int columns = rows[frame].length;
    float[][] moved = new float[2 * reach][];
    int n = 0;
    for (int g = frame - reach; g <= frame + reach; g++) {
      if (g != frame && g >= 0 && g < rows.length && rows[g] != null) {
        moved[n++] = movedOnto(rows[g], rows[frame]);
      }
    }
    float[] expected = new float[columns];
    Arrays.fill(expected, Float.NaN);
    if (n > 0) {
      float[] column = new float[n];
      for (int c = 0; c < columns; c++) {
        for (int i = 0; i < n; i++) {
          column[i] = moved[i][c];
        }
        Arrays.sort(column);
        expected[c] = (column[(n - 1) / 2] + column[n / 2]) / 2;
      }
    }
    return expected;
  }

  private static float[] movedOnto(int[] path, int[] target) {
    int[] distance = new int[path.length];
    for (int c = 0; c < path.length; c++) {
      distance[c] = target[c] - path[c];
    }
    Arrays.sort(distance);
    int median = distance[distance.length / 2];
    float[] moved = new float[path.length];
    for (int c = 0; c < path.length; c++) {
      moved[c] = path[c] + median;
    }
    return moved;
  }
}
