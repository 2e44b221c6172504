package org.isopach.dicom.derive;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import org.isopach.analysis.colour.ColourScale;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/**
 * The colours of a thickness map: a supplemental palette (DICOM PS3.3, C.7.6.19).
 *
 * <p>The scale runs from {@value #LOW_UM} to {@value #HIGH_UM} um for every map, so that two maps
 * can be compared by eye; beyond, the end's colour holds. The palette starts at the first mapped
 * value: cells without a value stay outside it and are shown black.
 */
final class ThicknessPalette {
  static final int LOW_UM = 100;
  static final int HIGH_UM = 500;

  private static final int BITS = 16;
  private static final int WIDEN_8_TO_16 = 257;

  private ThicknessPalette() {}

  static void addTo(Dataset.Builder object) {
    int entries = StoredThickness.stored(HIGH_UM) - StoredThickness.FIRST + 1;
    put(
        object,
        entries,
        16,
        Tags.RED_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR,
        Tags.RED_PALETTE_COLOR_LOOKUP_TABLE_DATA);
    put(
        object,
        entries,
        8,
        Tags.GREEN_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR,
        Tags.GREEN_PALETTE_COLOR_LOOKUP_TABLE_DATA);
    put(
        object,
        entries,
        0,
        Tags.BLUE_PALETTE_COLOR_LOOKUP_TABLE_DESCRIPTOR,
        Tags.BLUE_PALETTE_COLOR_LOOKUP_TABLE_DATA);
  }

  private static void put(
      Dataset.Builder object, int entries, int shift, int descriptorTag, int dataTag) {
    ByteBuffer data = ByteBuffer.allocate(2 * entries).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < entries; i++) {
      int rgb = ColourScale.sequential().rgb(place(StoredThickness.FIRST + i));
      data.putShort((short) ((rgb >> shift & 0xff) * WIDEN_8_TO_16));
    }
    object.numbers(descriptorTag, Vr.US, entries, StoredThickness.FIRST, BITS);
    object.bytes(dataTag, Vr.OW, data.array());
  }

  /** Returns where on the colour scale a stored value lies, 0 to 1 within the range. */
  private static double place(int stored) {
    return (StoredThickness.micrometres(stored) - LOW_UM) / (HIGH_UM - LOW_UM);
  }
}
