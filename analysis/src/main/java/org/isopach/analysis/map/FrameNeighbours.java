package org.isopach.analysis.map;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntPredicate;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;

/**
 * Finds which frames lie side by side.
 *
 * <p>Parallel frames are put in order across their common direction, radial frames in order of
 * angle (the last then neighbours the first, read backwards); other frames are taken in the order
 * given. So the order in which the frames were scanned or stored does not matter.
 */
public final class FrameNeighbours {
  private final ScanPath path;

  private FrameNeighbours(ScanPath path) {
    this.path = path;
  }

  /**
   * Returns the pairs of neighbours.
   *
   * @param path the frames
   * @param usable whether a frame, by its index, has any value; others are passed over
   */
  public static List<FramePair> of(ScanPath path, IntPredicate usable) {
    return new FrameNeighbours(path).pairs(usable);
  }

  private List<FramePair> pairs(IntPredicate usable) {
    List<Placed> frames = new ArrayList<>();
    boolean radial = path.pattern() == ScanPattern.RADIAL;
    for (int f = 0; f < path.frames(); f++) {
      if (usable.test(f)) {
        frames.add(radial ? byAngle(f) : byOffset(f));
      }
    }
    if (radial || path.pattern() == ScanPattern.RASTER) {
      frames.sort(Comparator.comparingDouble(Placed::order));
    }
    List<FramePair> pairs = new ArrayList<>();
    for (int i = 1; i < frames.size(); i++) {
      pairs.add(frames.get(i - 1).beside(frames.get(i), false));
    }
    if (radial && frames.size() > 1) {
      pairs.add(frames.get(frames.size() - 1).beside(frames.get(0), true));
    }
    return pairs;
  }

  /** Places a frame by its angle from 0 to less than π; a frame running the other way is turned. */
  private Placed byAngle(int f) {
    FundusPoint along = along(f);
    double angle = Math.atan2(along.yMm(), along.xMm());
    boolean turned = angle < 0 || angle >= Math.PI;
    return new Placed(f, turned, angle < 0 ? angle + Math.PI : angle >= Math.PI ? 0 : angle);
  }

  /** Places a frame by its distance from frame 0, across the direction of frame 0. */
  private Placed byOffset(int f) {
    FundusPoint direction = along(0);
    FundusPoint shift = middle(f).minus(middle(0));
    double offset = direction.xMm() * shift.yMm() - direction.yMm() * shift.xMm();
    FundusPoint own = along(f);
    boolean turned = direction.xMm() * own.xMm() + direction.yMm() * own.yMm() < 0;
    return new Placed(f, turned, offset);
  }

  private FundusPoint along(int f) {
    return path.point(f, path.ascans() - 1).minus(path.point(f, 0));
  }

  private FundusPoint middle(int f) {
    FundusPoint sum = path.point(f, path.ascans() - 1).plus(path.point(f, 0));
    return new FundusPoint(sum.xMm() / 2, sum.yMm() / 2);
  }

  private record Placed(int frame, boolean reversed, double order) {
    FramePair beside(Placed next, boolean turnNext) {
      return new FramePair(frame, reversed, next.frame, next.reversed ^ turnNext);
    }
  }
}
