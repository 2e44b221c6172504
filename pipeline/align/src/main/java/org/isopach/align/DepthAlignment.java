package org.isopach.align;

import java.util.Arrays;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;

/**
 * How far each A-scan of a follow-up must be moved in depth for its Bruch's membrane to lie where
 * the baseline has it at that place.
 *
 * <p>Shape {@code (frames, ascans)} of the follow-up. µm, positive deeper; NaN where either scan
 * has no membrane, or the A-scan lies beside the baseline. Of no effect on thickness, which is a
 * difference of depths within one A-scan. Immutable.
 */
public final class DepthAlignment {
  private final int ascans;
  private final double[] shiftUm;

  private DepthAlignment(int ascans, double[] shiftUm) {
    this.ascans = ascans;
    this.shiftUm = shiftUm;
  }

  /**
   * One scan's membrane.
   *
   * @param path where its A-scans lie
   * @param origin a place that both scans have, in the coordinates of the path
   * @param axial its µm per pixel
   * @param boundaries what was found in it
   */
  public record Side(ScanPath path, FundusPoint origin, AxialScale axial, BoundarySet boundaries) {
    /** Depths of Bruch's membrane in µm, index {@code frame * ascans + ascan}, NaN where none. */
    private double[] membraneUm() {
      double[] depths = new double[path.frames() * path.ascans()];
      BoundarySurface surface = boundaries.surface(Boundary.BM).orElse(null);
      for (int i = 0; i < depths.length; i++) {
        depths[i] =
            surface == null
                ? Double.NaN
                : axial.toMicrometres(surface.depthPx(i / path.ascans(), i % path.ascans()));
      }
      return depths;
    }
  }

  /** Returns the shifts that lay a follow-up's membrane on the baseline's. */
  public static DepthAlignment of(Side baseline, Side followUp) {
    ShadowMap membrane = ShadowMap.of(baseline.path(), baseline.membraneUm());
    double[] shift = followUp.membraneUm();
    ScanPath path = followUp.path();
    for (int i = 0; i < shift.length; i++) {
      int frame = i / path.ascans();
      int ascan = i % path.ascans();
      FundusPoint at = path.point(frame, ascan).minus(followUp.origin()).plus(baseline.origin());
      boolean there = membrane.read(at.xMm(), at.yMm());
      shift[i] = there ? membrane.value - shift[i] : Double.NaN;
    }
    return new DepthAlignment(path.ascans(), shift);
  }

  /** Returns the median of all shifts in µm, empty when there is none. */
  public OptionalDouble medianUm() {
    double[] known =
        Arrays.stream(shiftUm).filter(shift -> !Double.isNaN(shift)).sorted().toArray();
    return known.length == 0 ? OptionalDouble.empty() : OptionalDouble.of(known[known.length / 2]);
  }

  /** Returns the shift of an A-scan in µm, positive deeper, NaN where there is none. */
  public double shiftUm(int frame, int ascan) {
    return shiftUm[frame * ascans + ascan];
  }
}
