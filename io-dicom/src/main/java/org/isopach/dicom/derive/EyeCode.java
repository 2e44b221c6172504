package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.FormerCodes;
import org.isopach.dicom.data.Tags;

/** The eye and its side in SNOMED CT (CID 247). */
public final class EyeCode {
  static final Code EYE = new Code("81745001", "SCT", "Eye");

  private static final Code RIGHT = new Code("24028007", "SCT", "Right");
  private static final Code LEFT = new Code("7771000", "SCT", "Left");

  private EyeCode() {}

  static Code side(Laterality laterality) {
    return laterality == Laterality.RIGHT ? RIGHT : LEFT;
  }

  /** Returns the side that a code names, in its form before SNOMED CT too; empty for any other. */
  public static Optional<Laterality> laterality(Code code) {
    if (FormerCodes.same(code, RIGHT)) {
      return Optional.of(Laterality.RIGHT);
    }
    return FormerCodes.same(code, LEFT) ? Optional.of(Laterality.LEFT) : Optional.empty();
  }

  /** Returns the item of an Anatomic Region Sequence. */
  static Dataset region(Laterality laterality) {
    return EYE.toItem().toBuilder()
        .items(Tags.ANATOMIC_REGION_MODIFIER_SEQUENCE, side(laterality).toItem())
        .build();
  }
}
