package org.isopach.segment;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.map.OpticDisc;

/**
 * Finds the optic disc as the largest connected area of a raster in which the evidence for the
 * outer bands is missing, of the size that a disc can have.
 *
 * <p>Cells are coarse columns of frames. A frame that was not searched is passed over: the frames
 * on either side of it count as neighbours.
 */
final class DiscFinder {
  private static final float LEAST_EVIDENCE = 0.65f;
  private static final double LEAST_MM2 = 1.2;
  private static final double LEAST_PART_MM2 = 0.3;
  private static final double MOST_MM2 = 6;
  private static final int LEAST_FRAMES = 3;

  private final ScanPath path;
  private final CoarseGrid grid;
  private final float[][] evidence;
  private final boolean[][] seen;

  /**
   * Makes a finder.
   *
   * @param evidence for each frame that of its columns, null where it was not searched
   */
  DiscFinder(ScanPath path, CoarseGrid grid, float[][] evidence) {
    this.path = path;
    this.grid = grid;
    this.evidence = evidence;
    this.seen = new boolean[evidence.length][grid.columns()];
  }

  /** A disc and where it lies. */
  static final class Found {
    private final OpticDisc disc;
    private final boolean[][] cells;

    private Found(OpticDisc disc, boolean[][] cells) {
      this.disc = disc;
      this.cells = cells;
    }

    /** Returns the disc. */
    OpticDisc disc() {
      return disc;
    }

    /** Returns whether a coarse column of a frame lies in the disc. */
    boolean contains(int frame, int column) {
      return cells[frame][column];
    }
  }

  /** Returns the disc, or empty when none is in view or the frames are no raster. */
  Optional<Found> find() {
    if (path.pattern() != ScanPattern.RASTER || path.frames() < LEAST_FRAMES) {
      return Optional.empty();
    }
    List<int[]> largest = List.of();
    for (int f = 0; f < evidence.length; f++) {
      for (int c = 0; c < grid.columns(); c++) {
        List<int[]> area = seen[f][c] ? List.of() : area(f, c);
        largest = area.size() > largest.size() ? area : largest;
      }
    }
    return judged(largest);
  }

  private List<int[]> area(int frame, int column) {
    List<int[]> cells = new ArrayList<>();
    Deque<int[]> open = new ArrayDeque<>();
    visit(frame, column, open);
    while (!open.isEmpty()) {
      int[] cell = open.pop();
      cells.add(cell);
      visit(cell[0], cell[1] - 1, open);
      visit(cell[0], cell[1] + 1, open);
      visit(neighbour(cell[0], -1), cell[1], open);
      visit(neighbour(cell[0], 1), cell[1], open);
    }
    return cells;
  }

  private void visit(int frame, int column, Deque<int[]> open) {
    boolean inside =
        frame >= 0 && frame < evidence.length && column >= 0 && column < grid.columns();
    if (inside
        && !seen[frame][column]
        && evidence[frame] != null
        && evidence[frame][column] < LEAST_EVIDENCE) {
      seen[frame][column] = true;
      open.push(new int[] {frame, column});
    }
  }

  private int neighbour(int frame, int step) {
    int f = frame + step;
    while (f >= 0 && f < evidence.length && evidence[f] == null) {
      f += step;
    }
    return f;
  }

  private Optional<Found> judged(List<int[]> area) {
    double cell = path.ascanSpacingMm() * grid.ascansPerCell() * path.frameSpacingMm();
    double mm2 = area.size() * cell;
    long frames = area.stream().mapToInt(at -> at[0]).distinct().count();
    boolean complete = area.stream().noneMatch(this::atSide);
    double least = complete ? LEAST_MM2 : LEAST_PART_MM2;
    if (frames < LEAST_FRAMES || mm2 < least || mm2 > MOST_MM2) {
      return Optional.empty();
    }
    boolean[][] cells = new boolean[evidence.length][grid.columns()];
    double x = 0;
    double y = 0;
    for (int[] at : area) {
      cells[at[0]][at[1]] = true;
      FundusPoint point = point(at);
      x += point.xMm() / area.size();
      y += point.yMm() / area.size();
    }
    OpticDisc disc = new OpticDisc(new FundusPoint(x, y), mm2, complete);
    return Optional.of(new Found(disc, cells));
  }

  private boolean atSide(int[] at) {
    return neighbour(at[0], -1) < 0
        || neighbour(at[0], 1) >= evidence.length
        || at[1] == 0
        || at[1] == grid.columns() - 1;
  }

  private FundusPoint point(int[] at) {
    int ascan = at[1] * grid.ascansPerCell() + grid.ascansPerCell() / 2;
    return path.point(at[0], Math.min(ascan, path.ascans() - 1));
  }
}
