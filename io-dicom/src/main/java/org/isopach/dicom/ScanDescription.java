package org.isopach.dicom;

import java.util.Objects;
import java.util.Optional;

/**
 * What is worth showing of a scan's object beyond what measuring needs. Texts are as the object
 * gives them and empty when absent.
 *
 * @param sopUid SOP instance UID
 * @param location where the file lies, as the user named it
 * @param studyDate Study Date (0008,0020), eight digits
 * @param manufacturer Manufacturer (0008,0070)
 * @param model Manufacturer's Model Name (0008,1090)
 * @param transferSyntaxUid how the pixel data are encoded
 * @param bitsAllocated 8 or 16
 * @param bitsStored at most {@code bitsAllocated}
 * @param signed whether grey values are signed
 * @param inverted whether small values are white
 * @param placement what the A-scans' places come from
 * @param localizerUid SOP instance UID of the fundus image the frames are placed on; empty without
 */
public record ScanDescription(
    String sopUid,
    String location,
    String studyDate,
    String manufacturer,
    String model,
    String transferSyntaxUid,
    int bitsAllocated,
    int bitsStored,
    boolean signed,
    boolean inverted,
    PlacementSource placement,
    Optional<String> localizerUid) {
  /** What the places of A-scans can come from. */
  public enum PlacementSource {
    /** Ophthalmic Frame Location, with the scale of the fundus image or a derived one. */
    FRAME_LOCATION,
    /** Plane Position and Orientation (Patient). */
    PLANE_POSITION,
    /** Nothing: the places are not known. */
    NONE
  }

  public ScanDescription {
    Objects.requireNonNull(sopUid, "sopUid");
    Objects.requireNonNull(location, "location");
    Objects.requireNonNull(studyDate, "studyDate");
    Objects.requireNonNull(manufacturer, "manufacturer");
    Objects.requireNonNull(model, "model");
    Objects.requireNonNull(transferSyntaxUid, "transferSyntaxUid");
    Objects.requireNonNull(placement, "placement");
    Objects.requireNonNull(localizerUid, "localizerUid");
  }
}
