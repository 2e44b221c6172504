package org.isopach.dicom.derive;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/** The attributes of an en face image (DICOM PS3.3, C.8.17.14, about 2019). */
final class EnFaceObject {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.77.1.5.7";

  private static final String KIND = "en-face";
  private static final String SERIES_NUMBER = "8107";
  private static final Code RETINA = new Code("5665001", "SCT", "Retina");

  /** CID 4271, group version 20240915. */
  private static final Code STRUCTURE =
      new Code("128315", "DCM", "User selected volume structure map");

  /** CID 4274, group version 20240915. */
  private static final Code MEAN = new Code("130924", "DCM", "Mean intensity projection");

  private EnFaceObject() {}

  /**
   * Adds everything but the slab and the place.
   *
   * @param names all that the content depends on
   */
  static void addTo(
      Dataset.Builder object,
      EnFacePicture picture,
      OctScan scan,
      Dataset header,
      DerivedProvenance provenance,
      String[] names) {
    InstanceReference source = DerivedSource.reference(header);
    Laterality eye = scan.laterality().orElseThrow();
    object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SOP_INSTANCE_UID, Vr.UI, DerivedUids.of(KIND, names))
        .text(Tags.SERIES_INSTANCE_UID, Vr.UI, DerivedUids.of(KIND + "-series", names))
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, "Projection used for registration")
        .text(Tags.MODALITY, Vr.CS, "OPTENF")
        .text(Tags.INSTANCE_NUMBER, Vr.IS, "1")
        .text(Tags.IMAGE_TYPE, Vr.CS, "DERIVED", "PRIMARY")
        .put(header.element(Tags.ACQUISITION_DATETIME).orElseThrow())
        .text(Tags.DERIVATION_DESCRIPTION, Vr.ST, DerivedSource.algorithm(provenance))
        .text(Tags.IMAGE_COMMENTS, Vr.LT, Caution.LINE)
        .text(Tags.BURNED_IN_ANNOTATION, Vr.CS, "NO")
        .text(Tags.RECOGNIZABLE_VISUAL_FEATURES, Vr.CS, "NO")
        .text(Tags.IMAGE_LATERALITY, Vr.CS, eye.code())
        .items(Tags.ANATOMIC_REGION_SEQUENCE, RETINA.toItem())
        .items(
            Tags.SOURCE_IMAGE_SEQUENCE,
            source
                .toItem()
                .items(Tags.PURPOSE_OF_REFERENCE_CODE_SEQUENCE, SegmentParts.SOURCE_IMAGE.toItem())
                .build())
        .items(Tags.DERIVATION_ALGORITHM_SEQUENCE, SegmentParts.algorithm(MEAN, provenance))
        .items(Tags.OPHTHALMIC_IMAGE_TYPE_CODE_SEQUENCE, STRUCTURE.toItem());
    pixels(object, picture);
    SegmentParts.addCompression(object, header);
    InstanceReference.addAll(object, source.studyUid(), List.of(source));
  }

  private static void pixels(Dataset.Builder object, EnFacePicture picture) {
    object
        .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
        .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME2")
        .text(Tags.PRESENTATION_LUT_SHAPE, Vr.CS, "IDENTITY")
        .numbers(Tags.ROWS, Vr.US, picture.lattice().rows())
        .numbers(Tags.COLUMNS, Vr.US, picture.lattice().columns())
        .numbers(Tags.BITS_ALLOCATED, Vr.US, 8)
        .numbers(Tags.BITS_STORED, Vr.US, 8)
        .numbers(Tags.HIGH_BIT, Vr.US, 7)
        .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 0)
        .numbers(Tags.PIXEL_PADDING_VALUE, Vr.US, EnFaceGrey.NO_VALUE)
        .text(Tags.WINDOW_CENTER, Vr.DS, Integer.toString(EnFaceGrey.MIDDLE))
        .text(Tags.WINDOW_WIDTH, Vr.DS, "256");
  }

  /** Adds which depths were projected: in words, and as two offsets from a surface, in pixels. */
  static void addSlab(
      Dataset.Builder object, EnFacePicture.Slab slab, SurfaceReference surface, AxialScale axial) {
    List<Dataset> limits = new ArrayList<>();
    for (double um : new double[] {slab.firstUm(), slab.lastUm()}) {
      limits.add(
          Dataset.builder()
              .text(Tags.REFERENCED_SOP_INSTANCE_UID, Vr.UI, surface.sopInstanceUid())
              .numbers(Tags.REFERENCED_SURFACE_NUMBER, Vr.UL, surface.segment())
              .items(
                  Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE,
                  SurfaceCode.of(surface.boundary()).toItem())
              .numbers(
                  Tags.SURFACE_MESH_Z_PIXEL_OFFSET, Vr.UL, Math.rint(um / axial.toMicrometres(1)))
              .build());
    }
    object
        .items(Tags.REFERENCED_SURFACE_MESH_IDENTIFICATION_SEQUENCE, limits)
        .text(
            Tags.OPHTHALMIC_IMAGE_TYPE_DESCRIPTION,
            Vr.LO,
            String.format(
                Locale.ROOT,
                "Mean of %.0f to %.0f um below %s",
                slab.firstUm(),
                slab.lastUm(),
                surface.boundary().code()));
  }

  /** Adds the frame of reference and the plane, with our axes (docs/geometry.md). */
  static void addPlace(Dataset.Builder object, EnFacePicture picture, String frameOfReference) {
    MapLattice lattice = picture.lattice();
    String step = DecimalText.of(lattice.stepMm());
    object
        .text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, frameOfReference)
        .text(Tags.POSITION_REFERENCE_INDICATOR, Vr.LO)
        .text(Tags.PATIENT_ORIENTATION, Vr.CS, "L", "F")
        .text(Tags.PIXEL_SPACING, Vr.DS, step, step)
        .text(
            Tags.IMAGE_POSITION_PATIENT,
            Vr.DS,
            DecimalText.of(picture.origin().xMm() + lattice.firstXMm()),
            "0",
            DecimalText.of(0.0 - picture.origin().yMm() - lattice.firstYMm()))
        .text(Tags.IMAGE_ORIENTATION_PATIENT, Vr.DS, "1", "0", "0", "0", "0", "-1");
  }
}
