package org.isopach.dicom.derive;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.isopach.analysis.map.ThicknessMap;

/**
 * How thickness is stored: 16-bit unsigned, {@code um = SLOPE_UM * stored + INTERCEPT_UM}.
 *
 * <p>Stored value 0 means "no value here" and is outside the range that the mapping covers; 1 is 0
 * um. The slope is a power of two, so that reading back adds no error: what is lost is at most half
 * a step, 0.03125 um.
 */
final class StoredThickness {
  static final double SLOPE_UM = 0.0625;
  static final double INTERCEPT_UM = -SLOPE_UM;
  static final int NO_VALUE = 0;
  static final int FIRST = 1;
  static final int LAST = 65535;

  private StoredThickness() {}

  /** Returns whether a thickness in um can be stored. */
  static boolean fits(float micrometres) {
    long stored = Math.round((micrometres - INTERCEPT_UM) / SLOPE_UM);
    return micrometres >= 0 && stored <= LAST;
  }

  /** Returns the stored value of a thickness in um that fits; NaN is no value. */
  static int stored(float micrometres) {
    return Float.isNaN(micrometres)
        ? NO_VALUE
        : (int) Math.round((micrometres - INTERCEPT_UM) / SLOPE_UM);
  }

  /** Returns the thickness in um of a stored value from {@link #FIRST}. */
  static double micrometres(int stored) {
    return SLOPE_UM * stored + INTERCEPT_UM;
  }

  /** Returns the pixel data of a map, rows from the top, little endian. */
  static byte[] pixels(ThicknessMap map) {
    int rows = map.lattice().rows();
    int columns = map.lattice().columns();
    ByteBuffer buffer =
        ByteBuffer.allocate(Math.multiplyExact(2, map.lattice().cells()))
            .order(ByteOrder.LITTLE_ENDIAN);
    for (int row = 0; row < rows; row++) {
      for (int column = 0; column < columns; column++) {
        buffer.putShort((short) stored(map.micrometres(row, column)));
      }
    }
    return buffer.array();
  }
}
