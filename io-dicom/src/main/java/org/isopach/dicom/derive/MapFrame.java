package org.isopach.dicom.derive;

/** The frame of reference of parametric maps whose scan has none that they could be in. */
public final class MapFrame {
  private MapFrame() {}

  /**
   * Returns the UID of the frame whose coordinates are those of a scan's path.
   *
   * @param scanUid SOP Instance UID of the scan
   * @param lateralScale what its lengths were multiplied with against those the object states
   */
  public static String uid(String scanUid, double lateralScale) {
    return DerivedUids.of("frame-of-map", scanUid, Double.toString(lateralScale));
  }
}
