package org.isopach.align;

import java.util.Objects;

/**
 * Where an A-scan of the follow-up lies on the baseline: the pose, the shift of its frame, and the
 * shift of the baseline's frames there. Coordinates are those of the two paths as stated.
 *
 * <p>A place is left in the fields until the next. Not safe for use by several threads.
 */
final class Laying {
  private Pose pose;
  private final FrameShifts followUp;
  private final FrameShifts baseline;
  private final ShadowMap ranks;

  private double dx;
  private double dy;
  private int rank;
  private int before;
  private double share;

  /** The last place on the baseline. */
  double xMm;

  /** The last place on the baseline. */
  double yMm;

  /**
   * @param ranks the baseline's frames, counted across the scan, on its lattice
   */
  Laying(Pose pose, FrameShifts followUp, FrameShifts baseline, ShadowMap ranks) {
    this.pose = Objects.requireNonNull(pose, "pose");
    this.followUp = followUp;
    this.baseline = baseline;
    this.ranks = ranks;
  }

  Pose pose() {
    return pose;
  }

  FrameShifts followUpShifts() {
    return followUp;
  }

  FrameShifts baselineShifts() {
    return baseline;
  }

  /** Returns the same place with shifts of its own, for further refinement. */
  Laying copy() {
    return new Laying(pose, followUp.copy(), baseline.copy(), ranks);
  }

  /**
   * Computes a place. Returns false when it lies outside the baseline; its coordinates are then
   * those without the baseline's shift.
   *
   * @param atX the A-scan's place in the follow-up
   * @param frameRank its frame, counted across the follow-up
   */
  boolean place(double atX, double atY, int frameRank) {
    rank = frameRank;
    dx = atX + followUp.xMm(rank) - pose.from().xMm();
    dy = atY + followUp.yMm(rank) - pose.from().yMm();
    double x = pose.to().xMm() + pose.a() * dx - pose.b() * dy + pose.tx();
    double y = pose.to().yMm() + pose.b() * dx + pose.a() * dy + pose.ty();
    xMm = x;
    yMm = y;
    if (!ranks.read(x, y)) {
      return false;
    }
    shiftBack(x, y);
    if (ranks.read(xMm, yMm)) {
      shiftBack(x, y);
    }
    return true;
  }

  /** Takes the shift of the baseline's frames at the rank read from a true place. */
  private void shiftBack(double x, double y) {
    int last = baseline.frames() - 1;
    double at = Math.max(0, Math.min(last, ranks.value));
    before = (int) Math.min(last - 1.0, Math.floor(at));
    share = at - before;
    xMm = x - (1 - share) * baseline.xMm(before) - share * baseline.xMm(before + 1);
    yMm = y - (1 - share) * baseline.yMm(before) - share * baseline.yMm(before + 1);
  }

  /** Returns how many unknowns there are: the pose's, then the shifts when frames may move. */
  int unknowns(boolean moving) {
    return Pose.UNKNOWNS + (moving ? 2 * followUp.frames() + 2 * baseline.frames() : 0);
  }

  /** Fills in how a value at the last place changes, given its slope on the baseline. */
  void slopes(double sx, double sy, boolean moving, Slopes into) {
    into.clear();
    into.add(0, sx * dx + sy * dy);
    into.add(1, -sx * dy + sy * dx);
    into.add(2, sx);
    into.add(3, sy);
    if (!moving) {
      return;
    }
    int f = Pose.UNKNOWNS + 2 * rank;
    into.add(f, sx * pose.a() + sy * pose.b());
    into.add(f + 1, -sx * pose.b() + sy * pose.a());
    int b = Pose.UNKNOWNS + 2 * followUp.frames() + 2 * before;
    into.add(b, -(1 - share) * sx);
    into.add(b + 1, -(1 - share) * sy);
    into.add(b + 2, -share * sx);
    into.add(b + 3, -share * sy);
  }

  void addPrior(NormalEquations equations) {
    followUp.addPrior(equations, Pose.UNKNOWNS);
    baseline.addPrior(equations, Pose.UNKNOWNS + 2 * followUp.frames());
  }

  /** Takes the changes found. */
  void take(double[] changes, boolean moving) {
    pose = pose.less(changes);
    if (moving) {
      followUp.take(changes, Pose.UNKNOWNS);
      baseline.take(changes, Pose.UNKNOWNS + 2 * followUp.frames());
    }
  }
}
