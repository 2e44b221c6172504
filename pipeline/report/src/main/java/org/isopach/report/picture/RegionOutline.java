package org.isopach.report.picture;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The outlines of the voxels of one label in a frame, along the edges of pixels.
 *
 * <p>Corners are counted from the frame's upper left corner: x in A-scans, y in depths. A loop runs
 * with the region to its right; loops round holes run the other way. Where two pixels meet in a
 * corner only, the loop turns so that they stay together.
 */
final class RegionOutline {
  private final byte[] labels;
  private final int width;
  private final int height;
  private final byte wanted;
  private final Map<Integer, List<Integer>> edges = new HashMap<>();

  /** A closed line; {@code xs} and {@code ys} hold its corners without repeating the first. */
  record Loop(List<Integer> xs, List<Integer> ys) {
    Loop {
      xs = List.copyOf(xs);
      ys = List.copyOf(ys);
    }

    /** Returns the area enclosed in pixels, negative for a hole. */
    double area() {
      double twice = 0;
      for (int i = 0; i < xs.size(); i++) {
        int next = (i + 1) % xs.size();
        twice += (double) xs.get(i) * ys.get(next) - (double) xs.get(next) * ys.get(i);
      }
      return twice / 2;
    }
  }

  private RegionOutline(byte[] labels, int width, byte wanted) {
    this.labels = labels;
    this.width = width;
    this.height = labels.length / width;
    this.wanted = wanted;
  }

  /**
   * Returns the loops in the order of their first corner, from the top and then from the left.
   *
   * @param labels index {@code depth * ascans + ascan}
   */
  static List<Loop> of(byte[] labels, int ascans, byte wanted) {
    RegionOutline outline = new RegionOutline(labels, ascans, wanted);
    outline.collect();
    return outline.loops();
  }

  private boolean in(int x, int y) {
    return x >= 0 && y >= 0 && x < width && y < height && labels[y * width + x] == wanted;
  }

  private void collect() {
    for (int y = 0; y < height; y++) {
      for (int x = 0; x < width; x++) {
        if (in(x, y)) {
          edge(!in(x, y - 1), x, y, x + 1, y);
          edge(!in(x + 1, y), x + 1, y, x + 1, y + 1);
          edge(!in(x, y + 1), x + 1, y + 1, x, y + 1);
          edge(!in(x - 1, y), x, y + 1, x, y);
        }
      }
    }
  }

  private void edge(boolean border, int x0, int y0, int x1, int y1) {
    if (border) {
      edges.computeIfAbsent(corner(x0, y0), c -> new ArrayList<>(1)).add(corner(x1, y1));
    }
  }

  private int corner(int x, int y) {
    return y * (width + 1) + x;
  }

  private List<Loop> loops() {
    List<Loop> loops = new ArrayList<>();
    List<Integer> starts = edges.keySet().stream().sorted().toList();
    for (int start : starts) {
      while (edges.containsKey(start)) {
        loops.add(follow(start));
      }
    }
    return loops;
  }

  private Loop follow(int start) {
    List<Integer> xs = new ArrayList<>();
    List<Integer> ys = new ArrayList<>();
    int from = start;
    int direction = 0;
    do {
      int to = take(from, direction);
      int step = to - from;
      if (step != direction) {
        xs.add(from % (width + 1));
        ys.add(from / (width + 1));
      }
      direction = step;
      from = to;
    } while (from != start);
    return new Loop(xs, ys);
  }

  /** Takes an edge that leaves a corner; of two, the one that turns left, away from the pixel. */
  private int take(int from, int direction) {
    List<Integer> ways = edges.get(from);
    int chosen = 0;
    for (int i = 1; i < ways.size(); i++) {
      if (ways.get(i) - from == left(direction)) {
        chosen = i;
      }
    }
    int to = ways.remove(chosen);
    if (ways.isEmpty()) {
      edges.remove(from);
    }
    return to;
  }

  private int left(int direction) {
    if (Math.abs(direction) == 1) {
      return -direction * (width + 1);
    }
    return direction > 0 ? 1 : -1;
  }
}
