package org.isopach.align;

import java.util.Optional;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;

/**
 * Projects a scan onto the fundus: the mean grey of each A-scan in a slab below Bruch's membrane,
 * where vessels of the retina throw their shadows, against the running mean of its frame (see
 * {@code docs/measurements.md}).
 */
public final class EnFaceProjector {
  /** Where the slab begins, µm below Bruch's membrane. */
  public static final double FIRST_UM = 15;

  /** Where it ends, µm below Bruch's membrane. */
  public static final double LAST_UM = 60;

  /** How far to either side of an A-scan its surroundings reach in the frame, mm. */
  public static final double SURROUNDINGS_MM = 0.40;

  /** Values beyond this, without sign, are cut off: standard deviations. */
  public static final double MOST = 4;

  /** A-scans whose membrane was found with less confidence have no value. */
  public static final double LEAST_CONFIDENCE = 0.2;

  private EnFaceProjector() {}

  /**
   * Returns a scan's shadows.
   *
   * @param path where its A-scans lie
   * @return empty when Bruch's membrane was not looked for, or is nowhere
   */
  public static Optional<EnFace> project(OctScan scan, ScanPath path, BoundarySet boundaries) {
    Optional<BoundarySurface> membrane = boundaries.surface(Boundary.BM);
    if (membrane.isEmpty()) {
      return Optional.empty();
    }
    int ascans = scan.size().ascans();
    float[] shadow = new float[scan.size().frames() * ascans];
    float[] grey = new float[scan.size().depths() * ascans];
    int half = (int) Math.max(1, Math.round(SURROUNDINGS_MM / path.ascanSpacingMm()));
    for (int f = 0; f < scan.size().frames(); f++) {
      float[] line = slab(scan, membrane.get(), f, grey);
      darker(line, half, shadow, f * ascans);
    }
    return standardise(shadow) ? Optional.of(new EnFace(path, shadow)) : Optional.empty();
  }

  /** Mean grey of the slab in each A-scan of a frame; NaN everywhere when it cannot be read. */
  private static float[] slab(OctScan scan, BoundarySurface membrane, int frame, float[] grey) {
    int ascans = scan.size().ascans();
    float[] means = new float[ascans];
    boolean read = true;
    try {
      scan.frames().read(frame, grey);
    } catch (FrameReadException e) {
      read = false;
    }
    double nearest = FIRST_UM / scan.axial().toMicrometres(1);
    double farthest = LAST_UM / scan.axial().toMicrometres(1);
    for (int a = 0; a < ascans; a++) {
      float depth = membrane.depthPx(frame, a);
      int first = (int) Math.max(0, Math.rint(depth + nearest));
      int last = (int) Math.min(scan.size().depths() - 1.0, Math.rint(depth + farthest));
      boolean there = read && membrane.confidence(frame, a) >= LEAST_CONFIDENCE && last > first;
      means[a] = there ? mean(grey, first, last, a, ascans) : Float.NaN;
    }
    return means;
  }

  private static float mean(float[] grey, int first, int last, int ascan, int ascans) {
    double sum = 0;
    for (int d = first; d <= last; d++) {
      sum += grey[d * ascans + ascan];
    }
    return (float) (sum / (last - first + 1));
  }

  /** Running mean of the surroundings less the value itself. */
  private static void darker(float[] line, int half, float[] into, int offset) {
    int n = line.length;
    double[] sums = new double[n + 1];
    int[] counts = new int[n + 1];
    for (int a = 0; a < n; a++) {
      boolean there = !Float.isNaN(line[a]);
      sums[a + 1] = sums[a] + (there ? line[a] : 0);
      counts[a + 1] = counts[a] + (there ? 1 : 0);
    }
    for (int a = 0; a < n; a++) {
      int from = Math.max(0, a - half);
      int to = Math.min(n, a + half + 1);
      int count = counts[to] - counts[from];
      into[offset + a] =
          count < half / 2 + 1 ? Float.NaN : (float) ((sums[to] - sums[from]) / count - line[a]);
    }
  }

  /** Divides by the standard deviation and clips; false when there is nothing to divide by. */
  private static boolean standardise(float[] values) {
    double squares = 0;
    int count = 0;
    for (float value : values) {
      if (!Float.isNaN(value)) {
        squares += (double) value * value;
        count++;
      }
    }
    if (count == 0 || squares == 0) {
      return false;
    }
    double sd = Math.sqrt(squares / count);
    for (int i = 0; i < values.length; i++) {
      if (!Float.isNaN(values[i])) {
        values[i] = (float) Math.max(-MOST, Math.min(MOST, values[i] / sd));
      }
    }
    return true;
  }
}
