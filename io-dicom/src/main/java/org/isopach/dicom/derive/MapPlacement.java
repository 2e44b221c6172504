package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/**
 * Where the map lies: source, fundus image, landmark.
 *
 * <p>Pairs of coordinates are written row first, in pixels, with 0\0 at the outer corner of the
 * first pixel, as Reference Coordinates of the tomography are (DICOM PS3.3, C.8.17.10). The
 * thickness map's own tables do not give the order in the edition we have: our choice.
 */
final class MapPlacement {
  private static final Code SOURCE_IMAGE =
      new Code("121322", "DCM", "Source image for image processing operation");
  private static final Code LOCALIZER = new Code("121311", "DCM", "Localizer");
  private static final Code FOVEA = new Code("67046006", "SCT", "Fovea centralis");
  private static final Code DISC = new Code("81016008", "SCT", "Optic nerve head");

  private MapPlacement() {}

  static void addTo(
      Dataset.Builder object, ThicknessMap map, OctScan scan, Dataset source, double scale) {
    object.items(
        Tags.SOURCE_IMAGE_SEQUENCE,
        reference(
            source.text(Tags.SOP_CLASS_UID).orElseThrow(),
            source.text(Tags.SOP_INSTANCE_UID).orElseThrow(),
            SOURCE_IMAGE));
    scan.reference()
        .ifPresent(
            image ->
                object.items(
                    Tags.REFERENCED_INSTANCE_SEQUENCE,
                    reference(image.sopClassUid(), image.sopUid(), LOCALIZER)));
    if (scan.reference().isPresent() && placedOn(scan, scan.reference().get())) {
      object.items(
          Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE,
          registration(map, scan.reference().get(), scale));
    }
    structure(map.centre().source())
        .ifPresent(
            code -> {
              MapLattice lattice = map.lattice();
              object.items(Tags.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE, code.toItem());
              object.numbers(
                  Tags.ANATOMIC_STRUCTURE_REFERENCE_POINT,
                  Vr.FL,
                  0.5 - lattice.firstYMm() / lattice.stepMm(),
                  0.5 - lattice.firstXMm() / lattice.stepMm());
            });
  }

  /** Returns what the map is centred on (CID 4266); empty for a point that is no structure. */
  private static Optional<Code> structure(Landmark.Source source) {
    return switch (source) {
      case FOVEAL_PIT -> Optional.of(FOVEA);
      case DISC_OPENING -> Optional.of(DISC);
      case SCAN_MIDDLE, STATED -> Optional.empty();
    };
  }

  private static boolean placedOn(OctScan scan, ReferenceImage image) {
    return scan.path()
        .map(p -> p.frame())
        .filter(f -> f.kind() == FundusFrame.Kind.REFERENCE_IMAGE)
        .filter(f -> f.uid().equals(image.sopUid()))
        .isPresent();
  }

  private static Dataset registration(ThicknessMap map, ReferenceImage image, double scale) {
    MapLattice lattice = map.lattice();
    FundusPoint centre = map.centre().point();
    double top = centre.yMm() + lattice.firstYMm() - lattice.stepMm() / 2;
    double left = centre.xMm() + lattice.firstXMm() - lattice.stepMm() / 2;
    double bottom = top + lattice.rows() * lattice.stepMm();
    double right = left + lattice.columns() * lattice.stepMm();
    double rowMm = scale * image.rowSpacingMm();
    double columnMm = scale * image.columnSpacingMm();
    return Dataset.builder()
        .text(Tags.REGISTERED_LOCALIZER_UNITS, Vr.CS, "PIXEL")
        .numbers(
            Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER, Vr.FL, top / rowMm, left / columnMm)
        .numbers(
            Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER,
            Vr.FL,
            bottom / rowMm,
            right / columnMm)
        .build();
  }

  private static Dataset reference(String sopClassUid, String sopUid, Code purpose) {
    return Dataset.builder()
        .text(Tags.REFERENCED_SOP_CLASS_UID, Vr.UI, sopClassUid)
        .text(Tags.REFERENCED_SOP_INSTANCE_UID, Vr.UI, sopUid)
        .items(Tags.PURPOSE_OF_REFERENCE_CODE_SEQUENCE, purpose.toItem())
        .build();
  }
}
