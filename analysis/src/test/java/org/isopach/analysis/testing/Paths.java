package org.isopach.analysis.testing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;

/** Invented scan paths round a point. */
public final class Paths {
  private static final FundusFrame FRAME =
      new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.1");

  private Paths() {}

  /**
   * Returns a raster turned by an angle.
   *
   * @param offsetsMm where each frame lies, mm from the middle, across the frames
   * @param ascans A-scans per frame
   * @param widthMm length of a frame
   * @param degrees angle of the frames, from x towards y
   * @param middle middle of the raster
   */
  public static ScanPath raster(
      double[] offsetsMm, int ascans, double widthMm, double degrees, FundusPoint middle) {
    double ux = Math.cos(Math.toRadians(degrees));
    double uy = Math.sin(Math.toRadians(degrees));
    List<FundusPoint> starts = new ArrayList<>();
    List<FundusPoint> ends = new ArrayList<>();
    double half = widthMm / 2;
    for (double v : offsetsMm) {
      starts.add(middle.plus(new FundusPoint(-half * ux - v * uy, -half * uy + v * ux)));
      ends.add(middle.plus(new FundusPoint(half * ux - v * uy, half * uy + v * ux)));
    }
    return ScanPath.ofLines(starts, ends, ascans, FRAME);
  }

  /** Returns offsets evenly spaced over a height, symmetric about 0 to the last bit. */
  public static double[] even(int frames, double heightMm) {
    double[] offsets = new double[frames];
    for (int f = 0; f < frames; f++) {
      offsets[f] = (f - (frames - 1) / 2.0) * (heightMm / (frames - 1));
    }
    return offsets;
  }

  /** Returns frames through a point at even angles over half a turn. */
  public static ScanPath radial(int frames, int ascans, double radiusMm, FundusPoint hub) {
    List<FundusPoint> starts = new ArrayList<>();
    List<FundusPoint> ends = new ArrayList<>();
    for (int f = 0; f < frames; f++) {
      double angle = Math.PI * f / frames;
      FundusPoint tip = new FundusPoint(radiusMm * Math.cos(angle), radiusMm * Math.sin(angle));
      starts.add(hub.minus(tip));
      ends.add(hub.plus(tip));
    }
    return ScanPath.ofLines(starts, ends, ascans, FRAME);
  }

  /** Returns a path whose every A-scan is moved by up to a distance in x and y. */
  public static ScanPath jittered(ScanPath path, double byMm, long seed) {
    Random random = new Random(seed);
    return mapped(
        path,
        (x, y) ->
            new FundusPoint(
                x + byMm * (2 * random.nextDouble() - 1),
                y + byMm * (2 * random.nextDouble() - 1)));
  }

  /** Returns a path with x negated: the other eye's, A-scans in the same order. */
  public static ScanPath mirrored(ScanPath path) {
    return mapped(path, (x, y) -> new FundusPoint(-x, y));
  }

  /** Returns the same frames stored in another order. */
  public static ScanPath reordered(ScanPath path, List<Integer> order) {
    int ascans = path.ascans();
    double[] x = new double[path.frames() * ascans];
    double[] y = new double[path.frames() * ascans];
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a < ascans; a++) {
        x[f * ascans + a] = path.xMm(order.get(f), a);
        y[f * ascans + a] = path.yMm(order.get(f), a);
      }
    }
    return ScanPath.ofPoints(path.frames(), ascans, x, y, path.frame());
  }

  /** Returns 0 to {@code count - 1} in a seeded random order. */
  public static List<Integer> shuffled(int count, long seed) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      order.add(i);
    }
    Collections.shuffle(order, new Random(seed));
    return order;
  }

  private interface Move {
    FundusPoint to(double xMm, double yMm);
  }

  private static ScanPath mapped(ScanPath path, Move move) {
    int ascans = path.ascans();
    double[] x = new double[path.frames() * ascans];
    double[] y = new double[path.frames() * ascans];
    for (int i = 0; i < x.length; i++) {
      FundusPoint moved =
          move.to(path.xMm(i / ascans, i % ascans), path.yMm(i / ascans, i % ascans));
      x[i] = moved.xMm();
      y[i] = moved.yMm();
    }
    return ScanPath.ofPoints(path.frames(), ascans, x, y, path.frame());
  }
}
