package org.isopach.report.picture;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.isopach.analysis.map.MapLattice;

/**
 * Traces lines of equal value through a field by marching squares.
 *
 * <p>A square is spanned by four neighbouring cell centres. Crossings lie on its edges, linear
 * between the two values. The two saddle cases are decided by the mean of the four corners (common
 * practice, no source). A square with a missing corner has no line: contours end where values end.
 */
final class ContourTracer {
  private static final int NONE = -1;

  private final ValueField field;
  private final MapLattice lattice;
  private final double[] levels;
  private double level;
  /* Each crossed edge touches at most two squares, so a chain has at most two links per edge. */
  private final int[] firstLink;
  private final int[] secondLink;
  private final IndexList linked = new IndexList();

  private ContourTracer(ValueField field, double[] levels) {
    this.field = field;
    this.lattice = field.lattice();
    this.levels = levels;
    this.firstLink = new int[2 * lattice.cells()];
    this.secondLink = new int[2 * lattice.cells()];
    Arrays.fill(firstLink, NONE);
    Arrays.fill(secondLink, NONE);
  }

  /** Returns the lines of one level, in a fixed order. */
  static List<Contour> trace(ValueField field, double levelMicrometres) {
    return trace(field, new double[] {levelMicrometres}).get(0);
  }

  /**
   * Returns the lines of several levels, in a fixed order each.
   *
   * @param levelsMicrometres in ascending order
   */
  static List<List<Contour>> trace(ValueField field, double[] levelsMicrometres) {
    return new ContourTracer(field, levelsMicrometres).all();
  }

  /** Few squares are crossed by any one level: they are sorted out once for all levels. */
  private List<List<Contour>> all() {
    IndexList[] crossed = crossedSquares();
    List<List<Contour>> contours = new ArrayList<>();
    for (int i = 0; i < levels.length; i++) {
      level = levels[i];
      for (int square : crossed[i].toArray()) {
        linkSquare(square / lattice.columns(), square % lattice.columns());
      }
      contours.add(chains());
      forget();
    }
    return contours;
  }

  private IndexList[] crossedSquares() {
    IndexList[] crossed = new IndexList[levels.length];
    Arrays.setAll(crossed, i -> new IndexList());
    for (int r = 0; r + 1 < lattice.rows(); r++) {
      for (int c = 0; c + 1 < lattice.columns(); c++) {
        float a = field.at(r, c);
        float b = field.at(r, c + 1);
        float d = field.at(r + 1, c + 1);
        float e = field.at(r + 1, c);
        if (Float.isNaN(a + b + d + e)) {
          continue;
        }
        double least = Math.min(Math.min(a, b), Math.min(d, e));
        double most = Math.max(Math.max(a, b), Math.max(d, e));
        for (int i = firstAbove(least); i < levels.length && levels[i] <= most; i++) {
          crossed[i].add(r * lattice.columns() + c);
        }
      }
    }
    return crossed;
  }

  /** Returns the index of the first level greater than a value. */
  private int firstAbove(double value) {
    int at = Arrays.binarySearch(levels, value);
    return at < 0 ? -at - 1 : at + 1;
  }

  /** Takes all links away, so that the next level can be linked. */
  private void forget() {
    for (int edge : linked.toArray()) {
      firstLink[edge] = NONE;
      secondLink[edge] = NONE;
    }
    linked.clear();
  }

  private void linkSquare(int r, int c) {
    float a = field.at(r, c);
    float b = field.at(r, c + 1);
    float d = field.at(r + 1, c + 1);
    float e = field.at(r + 1, c);
    int key =
        (a >= level ? 1 : 0) + (b >= level ? 2 : 0) + (d >= level ? 4 : 0) + (e >= level ? 8 : 0);
    int top = across(r, c);
    int right = down(r, c + 1);
    int bottom = across(r + 1, c);
    int left = down(r, c);
    boolean centreAbove = (a + b + d + e) / 4 >= level;
    switch (key) {
      case 1, 14 -> link(left, top);
      case 2, 13 -> link(top, right);
      case 4, 11 -> link(right, bottom);
      case 8, 7 -> link(bottom, left);
      case 3, 12 -> link(left, right);
      case 6, 9 -> link(top, bottom);
      case 5 -> saddle(centreAbove, top, right, bottom, left);
      case 10 -> saddle(!centreAbove, top, right, bottom, left);
      default -> {
        // All four corners lie on one side.
      }
    }
  }

  private void saddle(boolean joinTopRight, int top, int right, int bottom, int left) {
    if (joinTopRight) {
      link(top, right);
      link(bottom, left);
    } else {
      link(left, top);
      link(right, bottom);
    }
  }

  /** The edge from cell (r, c) to its right neighbour. */
  private int across(int r, int c) {
    return 2 * (r * lattice.columns() + c);
  }

  /** The edge from cell (r, c) to its lower neighbour. */
  private int down(int r, int c) {
    return 2 * (r * lattice.columns() + c) + 1;
  }

  private void link(int from, int to) {
    linkOneWay(from, to);
    linkOneWay(to, from);
  }

  private void linkOneWay(int from, int to) {
    if (firstLink[from] == NONE) {
      firstLink[from] = to;
      linked.add(from);
    } else {
      secondLink[from] = to;
    }
  }

  /** Few edges are crossed; only those are gone through, in order. */
  private List<Contour> chains() {
    int[] edges = linked.toArray();
    Arrays.sort(edges);
    List<Contour> contours = new ArrayList<>();
    boolean[] used = new boolean[firstLink.length];
    for (int edge : edges) {
      if (!used[edge] && secondLink[edge] == NONE) {
        contours.add(walk(edge, used));
      }
    }
    for (int edge : edges) {
      if (!used[edge]) {
        contours.add(walk(edge, used));
      }
    }
    return contours;
  }

  private Contour walk(int start, boolean[] used) {
    List<Integer> edges = new ArrayList<>();
    int last = start;
    for (int edge = start; edge != NONE; edge = unused(edge, used)) {
      used[edge] = true;
      edges.add(edge);
      last = edge;
    }
    if (edges.size() > 2 && (firstLink[last] == start || secondLink[last] == start)) {
      edges.add(start);
    }
    return contour(edges);
  }

  private int unused(int edge, boolean[] used) {
    int first = firstLink[edge];
    if (first != NONE && !used[first]) {
      return first;
    }
    int second = secondLink[edge];
    return second != NONE && !used[second] ? second : NONE;
  }

  private Contour contour(List<Integer> edges) {
    double[] x = new double[edges.size()];
    double[] y = new double[edges.size()];
    for (int i = 0; i < x.length; i++) {
      int cell = edges.get(i) / 2;
      boolean downwards = edges.get(i) % 2 == 1;
      int r = cell / lattice.columns();
      int c = cell % lattice.columns();
      double t = downwards ? share(r, c, r + 1, c) : share(r, c, r, c + 1);
      x[i] = lattice.xMm(c) + (downwards ? 0 : t * lattice.stepMm());
      y[i] = lattice.yMm(r) + (downwards ? t * lattice.stepMm() : 0);
    }
    return new Contour(level, x, y);
  }

  private double share(int r0, int c0, int r1, int c1) {
    double from = field.at(r0, c0);
    return (level - from) / (field.at(r1, c1) - from);
  }
}
