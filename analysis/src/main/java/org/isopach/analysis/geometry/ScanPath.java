package org.isopach.analysis.geometry;

import java.util.List;
import java.util.Objects;

/**
 * Where each A-scan of a scan lies on the fundus, in mm.
 *
 * <p>Shape {@code (frames, ascans)}, both 0-based. A position is that of the centre of the A-scan.
 * Coordinates are counted from {@link #frame()}; x grows to the right and y down as the examiner
 * sees the eye. Immutable.
 */
public final class ScanPath {
  private static final double STRAIGHT_TOLERANCE = 0.02;
  private static final double PARALLEL_COSINE = 0.9998;

  private final int frames;
  private final int ascans;
  private final int knots;
  private final double[] xMm;
  private final double[] yMm;
  private final FundusFrame frame;
  private final ScanPattern pattern;

  /** Straight frames are kept as two knots, their ends; others as one knot for each A-scan. */
  private ScanPath(
      int frames, int ascans, int knots, double[] xMm, double[] yMm, FundusFrame frame) {
    this.frames = frames;
    this.ascans = ascans;
    this.knots = knots;
    this.xMm = xMm;
    this.yMm = yMm;
    this.frame = Objects.requireNonNull(frame, "frame");
    this.pattern = classify();
  }

  private ScanPath(ScanPath figure, double[] xMm, double[] yMm, FundusFrame frame) {
    this.frames = figure.frames;
    this.ascans = figure.ascans;
    this.knots = figure.ascans;
    this.xMm = xMm;
    this.yMm = yMm;
    this.frame = Objects.requireNonNull(frame, "frame");
    this.pattern = figure.pattern;
  }

  /**
   * Returns a path given point by point.
   *
   * @param frames number of frames, at least 1
   * @param ascans number of A-scans in each frame, at least 2
   * @param xMm x of every A-scan, index {@code frame * ascans + ascan}; copied
   * @param yMm y of every A-scan, same order; copied
   * @param frame what the coordinates are counted from
   * @throws IllegalArgumentException when a length does not fit or a coordinate is not finite
   */
  public static ScanPath ofPoints(
      int frames, int ascans, double[] xMm, double[] yMm, FundusFrame frame) {
    checkShape(frames, ascans);
    int points = Math.multiplyExact(frames, ascans);
    if (xMm.length != points || yMm.length != points) {
      throw new IllegalArgumentException(
          "expected " + points + " coordinates, had " + xMm.length + " and " + yMm.length);
    }
    for (int i = 0; i < points; i++) {
      if (!Double.isFinite(xMm[i]) || !Double.isFinite(yMm[i])) {
        throw new IllegalArgumentException(
            "the place of frame " + i / ascans + ", A-scan " + i % ascans + " is not finite");
      }
    }
    return new ScanPath(frames, ascans, ascans, xMm.clone(), yMm.clone(), frame);
  }

  /**
   * Returns a path of straight frames.
   *
   * @param starts centre of the first A-scan of each frame
   * @param ends centre of the last A-scan of each frame; same length as {@code starts}
   * @param ascans number of A-scans in each frame, evenly spaced, at least 2
   * @param frame what the coordinates are counted from
   */
  public static ScanPath ofLines(
      List<FundusPoint> starts, List<FundusPoint> ends, int ascans, FundusFrame frame) {
    if (starts.size() != ends.size()) {
      throw new IllegalArgumentException(
          "as many ends as starts are needed, had " + starts.size() + " and " + ends.size());
    }
    checkShape(starts.size(), ascans);
    double[] x = new double[2 * starts.size()];
    double[] y = new double[2 * starts.size()];
    for (int f = 0; f < starts.size(); f++) {
      x[2 * f] = starts.get(f).xMm();
      y[2 * f] = starts.get(f).yMm();
      x[2 * f + 1] = ends.get(f).xMm();
      y[2 * f + 1] = ends.get(f).yMm();
      checkFinite(starts.get(f), f, 0);
      checkFinite(ends.get(f), f, ascans - 1);
    }
    return new ScanPath(starts.size(), ascans, 2, x, y, frame);
  }

  private static void checkShape(int frames, int ascans) {
    if (frames < 1 || ascans < 2) {
      throw new IllegalArgumentException(
          "a path needs at least 1 frame of 2 A-scans, was " + frames + " x " + ascans);
    }
    Math.multiplyExact(frames, ascans);
  }

  private static void checkFinite(FundusPoint point, int frame, int ascan) {
    if (!Double.isFinite(point.xMm()) || !Double.isFinite(point.yMm())) {
      throw new IllegalArgumentException(
          "the place of frame " + frame + ", A-scan " + ascan + " is not finite");
    }
  }

  /** Returns the number of frames. */
  public int frames() {
    return frames;
  }

  /** Returns the number of A-scans in each frame. */
  public int ascans() {
    return ascans;
  }

  /** Returns what the coordinates are counted from. */
  public FundusFrame frame() {
    return frame;
  }

  /** Returns the figure that the frames draw. */
  public ScanPattern pattern() {
    return pattern;
  }

  /** Returns the x in mm of the centre of an A-scan. */
  public double xMm(int frameIndex, int ascan) {
    return coordinate(xMm, frameIndex, ascan);
  }

  /** Returns the y in mm of the centre of an A-scan. */
  public double yMm(int frameIndex, int ascan) {
    return coordinate(yMm, frameIndex, ascan);
  }

  /** Returns the place of the centre of an A-scan. */
  public FundusPoint point(int frameIndex, int ascan) {
    return new FundusPoint(xMm(frameIndex, ascan), yMm(frameIndex, ascan));
  }

  /** Returns the mean distance in mm between neighbouring A-scans of one frame. */
  public double ascanSpacingMm() {
    double sum = 0;
    for (int f = 0; f < frames; f++) {
      for (int j = 1; j < ascans; j++) {
        sum += point(f, j).distanceMm(point(f, j - 1));
      }
    }
    return sum / ((double) frames * (ascans - 1));
  }

  /**
   * Returns the mean distance in mm between the middles of neighbouring frames; for radial frames,
   * between their ends; NaN for a single frame.
   */
  public double frameSpacingMm() {
    if (frames < 2) {
      return Double.NaN;
    }
    int at = pattern == ScanPattern.RADIAL ? 0 : ascans / 2;
    double sum = 0;
    for (int f = 1; f < frames; f++) {
      sum += point(f, at).distanceMm(point(f - 1, at));
    }
    return sum / (frames - 1);
  }

  /** Returns the middle of the smallest upright rectangle around all A-scans. */
  public FundusPoint middle() {
    FundusPoint least = least();
    FundusPoint greatest = greatest();
    return new FundusPoint((least.xMm() + greatest.xMm()) / 2, (least.yMm() + greatest.yMm()) / 2);
  }

  /** Returns width and height in mm of the smallest upright rectangle around all A-scans. */
  public FundusPoint extent() {
    return greatest().minus(least());
  }

  private FundusPoint least() {
    double x = Double.POSITIVE_INFINITY;
    double y = Double.POSITIVE_INFINITY;
    for (int i = 0; i < xMm.length; i++) {
      x = Math.min(x, xMm[i]);
      y = Math.min(y, yMm[i]);
    }
    return new FundusPoint(x, y);
  }

  private FundusPoint greatest() {
    double x = Double.NEGATIVE_INFINITY;
    double y = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < xMm.length; i++) {
      x = Math.max(x, xMm[i]);
      y = Math.max(y, yMm[i]);
    }
    return new FundusPoint(x, y);
  }

  /**
   * Returns this path with every length multiplied, the origin kept in place.
   *
   * @param factor finite and positive, for example the ratio of two ocular magnifications
   */
  public ScanPath scaledBy(double factor) {
    if (!(factor > 0) || Double.isInfinite(factor)) {
      throw new IllegalArgumentException("factor must be finite and positive, was " + factor);
    }
    double[] x = new double[xMm.length];
    double[] y = new double[yMm.length];
    for (int i = 0; i < x.length; i++) {
      x[i] = xMm[i] * factor;
      y[i] = yMm[i] * factor;
    }
    return new ScanPath(frames, ascans, knots, x, y, frame);
  }

  /**
   * Returns this path with its A-scans where they were found to be. It keeps its pattern, though
   * the eye's motion may have bent frames and put them at unequal distances.
   *
   * @param xMm x of every A-scan, index {@code frame * ascans + ascan}; copied
   * @param yMm y of every A-scan, same order; copied
   * @param frame what these coordinates are counted from
   * @throws IllegalArgumentException as {@link #ofPoints}
   */
  public ScanPath placedAt(double[] xMm, double[] yMm, FundusFrame frame) {
    ScanPath points = ofPoints(frames, ascans, xMm, yMm, frame);
    return new ScanPath(this, points.xMm, points.yMm, frame);
  }

  /** Returns this path moved, turned and scaled into other coordinates; it keeps its pattern. */
  public ScanPath movedBy(FundusTransform transform, FundusFrame frame) {
    double[] x = new double[frames * ascans];
    double[] y = new double[x.length];
    for (int i = 0; i < x.length; i++) {
      FundusPoint point = transform.apply(point(i / ascans, i % ascans));
      x[i] = point.xMm();
      y[i] = point.yMm();
    }
    return placedAt(x, y, frame);
  }

  /**
   * Returns this path seen in a mirror: x negated and the A-scans of each frame counted from the
   * other end, so that a left eye is laid out as a right one. Twice mirrored is the same path, to
   * the last bit.
   */
  public ScanPath mirrored() {
    double[] x = new double[xMm.length];
    double[] y = new double[yMm.length];
    for (int i = 0; i < x.length; i++) {
      int other = i - i % knots + knots - 1 - i % knots;
      x[i] = -xMm[other];
      y[i] = yMm[other];
    }
    return new ScanPath(frames, ascans, knots, x, y, frame);
  }

  private double coordinate(double[] values, int frameIndex, int ascan) {
    Objects.checkIndex(frameIndex, frames);
    Objects.checkIndex(ascan, ascans);
    if (knots == ascans) {
      return values[frameIndex * ascans + ascan];
    }
    // One weight per end, so that the same line drawn backwards gives the same bits.
    double fromStart = (double) ascan / (ascans - 1);
    double fromEnd = (double) (ascans - 1 - ascan) / (ascans - 1);
    return fromEnd * values[2 * frameIndex] + fromStart * values[2 * frameIndex + 1];
  }

  private ScanPattern classify() {
    boolean straight = true;
    boolean closed = true;
    for (int f = 0; f < frames; f++) {
      double chord = point(f, 0).distanceMm(point(f, ascans - 1));
      double length = 0;
      for (int j = 1; j < ascans; j++) {
        length += point(f, j).distanceMm(point(f, j - 1));
      }
      straight &= length > 0 && chord >= (1 - STRAIGHT_TOLERANCE) * length;
      closed &= length > 0 && chord <= 3.0 * length / (ascans - 1);
    }
    if (closed) {
      return ScanPattern.CIRCLE;
    }
    if (!straight) {
      return ScanPattern.IRREGULAR;
    }
    if (frames == 1) {
      return ScanPattern.SINGLE_LINE;
    }
    return classifyLines();
  }

  private ScanPattern classifyLines() {
    boolean parallel = true;
    boolean common = true;
    FundusPoint hub = middleOf(0);
    double reach = point(0, 0).distanceMm(point(0, ascans - 1)) / 2;
    double ux = directionX(0);
    double uy = directionY(0);
    for (int f = 1; f < frames; f++) {
      double cosine = ux * directionX(f) + uy * directionY(f);
      parallel &= cosine >= PARALLEL_COSINE;
      common &= middleOf(f).distanceMm(hub) <= 0.1 * reach;
    }
    if (parallel) {
      return ScanPattern.RASTER;
    }
    return common ? ScanPattern.RADIAL : ScanPattern.IRREGULAR;
  }

  private FundusPoint middleOf(int f) {
    FundusPoint a = point(f, 0);
    FundusPoint b = point(f, ascans - 1);
    return new FundusPoint((a.xMm() + b.xMm()) / 2, (a.yMm() + b.yMm()) / 2);
  }

  private double directionX(int f) {
    FundusPoint a = point(f, 0);
    FundusPoint b = point(f, ascans - 1);
    return (b.xMm() - a.xMm()) / a.distanceMm(b);
  }

  private double directionY(int f) {
    FundusPoint a = point(f, 0);
    FundusPoint b = point(f, ascans - 1);
    return (b.yMm() - a.yMm()) / a.distanceMm(b);
  }
}
