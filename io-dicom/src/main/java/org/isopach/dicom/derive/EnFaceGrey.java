package org.isopach.dicom.derive;

/**
 * How a projection is stored: 8 bit, {@code (stored - 128) * range / 127}. Stored value 0 is "no
 * value here"; 1 is the darkest, 128 as bright as the surroundings, 255 the brightest.
 */
final class EnFaceGrey {
  static final int NO_VALUE = 0;
  static final int MIDDLE = 128;
  static final int STEPS = 127;

  private EnFaceGrey() {}

  /** Returns the stored value of a brightness; NaN is no value. */
  static int stored(float value, double range) {
    if (Float.isNaN(value)) {
      return NO_VALUE;
    }
    double cut = Math.max(-range, Math.min(range, value));
    return MIDDLE + (int) Math.rint(cut / range * STEPS);
  }

  /** Returns the pixels, rows from the top. */
  static byte[] pixels(EnFacePicture picture) {
    int columns = picture.lattice().columns();
    byte[] pixels = new byte[picture.lattice().cells()];
    for (int i = 0; i < pixels.length; i++) {
      pixels[i] = (byte) stored(picture.cells().at(i / columns, i % columns), picture.range());
    }
    return pixels;
  }
}
