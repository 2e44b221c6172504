package org.isopach.dicom.derive;

import java.util.List;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;

/**
 * Who observed what a report says: this program.
 *
 * <p>The codes of the observer (PS3.16, TID 1002 and 1004) and of a comment are from memory; those
 * of the algorithm are TID 2102's.
 */
final class ReportObserver {
  private static final Code TYPE = new Code("121005", "DCM", "Observer Type");
  private static final Code DEVICE = new Code("121007", "DCM", "Device");
  private static final Code UID = new Code("121012", "DCM", "Device Observer UID");
  private static final Code NAME = new Code("121013", "DCM", "Device Observer Name");
  private static final Code COMMENT = new Code("121106", "DCM", "Comment");
  private static final Code ALGORITHM = new Code("111001", "DCM", "Algorithm Name");
  private static final Code VERSION = new Code("111003", "DCM", "Algorithm Version");
  private static final Code MANUFACTURER = new Code("122405", "DCM", "Algorithm Manufacturer");
  private static final Code PARAMETERS = new Code("111002", "DCM", "Algorithm Parameters");

  private ReportObserver() {}

  /** Returns the device observer. */
  static List<Dataset> items(DerivedProvenance provenance) {
    return List.of(
        ContentItem.code(ContentItem.OBSERVATION_CONTEXT, TYPE, DEVICE),
        ContentItem.uid(
            ContentItem.OBSERVATION_CONTEXT,
            UID,
            DerivedUids.of("observer", provenance.softwareVersion())),
        text(NAME, DerivedEquipment.MAKER));
  }

  /** Returns what the algorithm is and what was chosen for it. */
  static List<Dataset> algorithm(DerivedProvenance provenance) {
    return List.of(
        text(ALGORITHM, DerivedEquipment.MAKER),
        text(VERSION, provenance.softwareVersion()),
        text(MANUFACTURER, DerivedEquipment.MAKER),
        text(PARAMETERS, provenance.parameters().isEmpty() ? "none" : provenance.parameters()));
  }

  /** Returns what every reader is to be told. */
  static Dataset caution() {
    return ContentItem.text(ContentItem.CONTAINS, COMMENT, Caution.LINE);
  }

  /** Returns what there is to say of the scan, or of a sector without a number. */
  static Dataset comment(String relationship, String words) {
    return ContentItem.text(relationship, COMMENT, DerivedSource.ascii(words, Integer.MAX_VALUE));
  }

  private static Dataset text(Code name, String value) {
    return ContentItem.text(ContentItem.OBSERVATION_CONTEXT, name, DerivedSource.ascii(value));
  }
}
