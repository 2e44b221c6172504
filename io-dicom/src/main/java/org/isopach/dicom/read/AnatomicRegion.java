package org.isopach.dicom.read;

import java.util.Map;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * Tells tomographies of the front of the eye from those of the retina by Anatomic Region Sequence
 * (0008,2218), coded by DICOM PS3.16, CID 4209 and CID 4211. A region that is missing or not one of
 * these codes is taken for the retina.
 */
final class AnatomicRegion {
  /** SNOMED CT codes. */
  private static final Map<String, String> FRONT =
      Map.ofEntries(
          Map.entry("31636006", "anterior chamber of eye"),
          Map.entry("29534007", "ciliary body"),
          Map.entry("29445007", "conjunctiva"),
          Map.entry("28726007", "cornea"),
          Map.entry("15775008", "corneal epithelium"),
          Map.entry("65431007", "corneal endothelium"),
          Map.entry("41296002", "iris"),
          Map.entry("78076003", "lens"),
          Map.entry("18619003", "sclera"));

  private AnatomicRegion() {}

  /**
   * Checks that an object is not of the front of the eye.
   *
   * @throws ObjectDefect NOT_RETINAL_SECTION when it is
   */
  static void requireRetina(Dataset attributes) throws ObjectDefect {
    for (Dataset code : attributes.items(Tags.ANATOMIC_REGION_SEQUENCE)) {
      String front = FRONT.get(code.text(Tags.CODE_VALUE).orElse(""));
      if (front != null) {
        throw new ObjectDefect(
            FindingKind.NOT_RETINAL_SECTION, "the region imaged is the " + front);
      }
    }
  }
}
