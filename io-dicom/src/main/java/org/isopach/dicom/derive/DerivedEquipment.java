package org.isopach.dicom.derive;

import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/** Which equipment made a derived object, and which made its source. */
final class DerivedEquipment {
  static final String MAKER = "Isopach";

  /** Code from memory. */
  private static final Code ACQUISITION_EQUIPMENT =
      new Code("109101", "DCM", "Acquisition Equipment");

  private DerivedEquipment() {}

  /** Adds this program as the equipment and that of the source as contributing. */
  static void addTo(Dataset.Builder object, Dataset source, String softwareVersion) {
    addOwn(object, softwareVersion);
    if (source.text(Tags.MANUFACTURER).isPresent()) {
      Dataset.Builder instrument =
          Dataset.builder()
              .items(Tags.PURPOSE_OF_REFERENCE_CODE_SEQUENCE, ACQUISITION_EQUIPMENT.toItem());
      int[] taken = {
        Tags.MANUFACTURER,
        Tags.MANUFACTURER_MODEL_NAME,
        Tags.DEVICE_SERIAL_NUMBER,
        Tags.SOFTWARE_VERSIONS
      };
      for (int tag : taken) {
        source.element(tag).ifPresent(instrument::put);
      }
      object.items(Tags.CONTRIBUTING_EQUIPMENT_SEQUENCE, instrument.build());
    }
  }

  private static void addOwn(Dataset.Builder object, String softwareVersion) {
    object
        .text(Tags.MANUFACTURER, Vr.LO, MAKER)
        .text(Tags.MANUFACTURER_MODEL_NAME, Vr.LO, MAKER)
        .text(Tags.DEVICE_SERIAL_NUMBER, Vr.LO, "software")
        .text(Tags.SOFTWARE_VERSIONS, Vr.LO, softwareVersion);
  }
}
