package org.isopach.analysis.geometry;

import java.util.OptionalDouble;

/**
 * How deep one pixel is, along the A-scan, in tissue.
 *
 * <p>The axial scale does not depend on the eye's axial length. It depends on the group refractive
 * index that the instrument assumed; where the object states that index it is kept, so that
 * thicknesses made under different assumptions can be told apart.
 *
 * @param micrometresPerPixel µm per depth pixel, finite and positive
 * @param refractiveIndex the index behind the figure, or empty when the object does not say
 */
public record AxialScale(double micrometresPerPixel, OptionalDouble refractiveIndex) {
  public AxialScale {
    if (!(micrometresPerPixel > 0) || Double.isInfinite(micrometresPerPixel)) {
      throw new IllegalArgumentException(
          "micrometresPerPixel must be finite and positive, was " + micrometresPerPixel);
    }
  }

  /** Returns a scale whose refractive index is not known. */
  public static AxialScale ofMicrometresPerPixel(double micrometresPerPixel) {
    return new AxialScale(micrometresPerPixel, OptionalDouble.empty());
  }

  /** Returns the length in µm of a stretch of depth pixels; NaN stays NaN. */
  public double toMicrometres(double pixels) {
    return pixels * micrometresPerPixel;
  }

  /** Returns the number of depth pixels in a length in µm; NaN stays NaN. */
  public double toPixels(double micrometres) {
    return micrometres / micrometresPerPixel;
  }
}
