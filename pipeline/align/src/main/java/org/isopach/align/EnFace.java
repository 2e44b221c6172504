package org.isopach.align;

import java.util.Objects;
import org.isopach.analysis.geometry.ScanPath;

/**
 * The shadows that vessels cast below the retina, seen en face: one value for each A-scan.
 *
 * <p>Shape {@code (frames, ascans)} of its path. A value is how much darker the A-scan is there
 * than its surroundings in the frame, in standard deviations of the whole picture; NaN where the
 * A-scan has no outer boundary. Immutable.
 */
public final class EnFace {
  private final ScanPath path;
  private final float[] shadow;

  /**
   * Makes a picture from a copy of its values.
   *
   * @param path where the A-scans lie
   * @param shadow index {@code frame * ascans + ascan}; NaN where there is none
   * @throws IllegalArgumentException when the length does not fit
   */
  public EnFace(ScanPath path, float[] shadow) {
    this.path = Objects.requireNonNull(path, "path");
    if (shadow.length != path.frames() * path.ascans()) {
      throw new IllegalArgumentException(
          "expected " + path.frames() * path.ascans() + " values, had " + shadow.length);
    }
    this.shadow = shadow.clone();
  }

  /** Returns where the A-scans lie. */
  public ScanPath path() {
    return path;
  }

  /** Returns the value of an A-scan, NaN where there is none. */
  public float shadow(int frame, int ascan) {
    Objects.checkIndex(frame, path.frames());
    Objects.checkIndex(ascan, path.ascans());
    return shadow[frame * path.ascans() + ascan];
  }

  /**
   * Returns the values smoothed along each frame by a Gaussian, over the A-scans that have one.
   *
   * @param sigmaMm its standard deviation, positive
   * @return index {@code frame * ascans + ascan}; NaN where the A-scan itself has no value
   */
  double[] smoothed(double sigmaMm) {
    int ascans = path.ascans();
    double[] result = new double[shadow.length];
    double[] kernel = Gaussian.kernel(sigmaMm / path.ascanSpacingMm());
    for (int f = 0; f < path.frames(); f++) {
      for (int a = 0; a < ascans; a++) {
        result[f * ascans + a] = Gaussian.at(shadow, f * ascans, 1, ascans, a, kernel);
      }
    }
    return result;
  }
}
