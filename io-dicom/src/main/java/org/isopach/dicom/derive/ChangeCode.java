package org.isopach.dicom.derive;

import org.isopach.dicom.data.Code;

/**
 * How a map of change between two scans is coded. No context group that we have names such a
 * quantity: the code is our own, under a private scheme (PS3.16, clause 8).
 *
 * <p>A Quantity Definition Sequence of a change has two items: the quantity, which is {@link
 * #CHANGE}, so that no reader takes the map for a thickness, then, under the name {@link
 * #DEFINITION}, the code of the thickness that changed.
 */
public final class ChangeCode {
  /** The values of the first source image less those of the second. */
  public static final Code CHANGE =
      new Code("CHANGE", RegionCode.SCHEME, "Change of thickness, first source less second");

  /** The name of the second item: between which surfaces the thickness lies. */
  public static final Code DEFINITION = new Code("370129005", "SCT", "Measurement Method");

  private ChangeCode() {}
}
