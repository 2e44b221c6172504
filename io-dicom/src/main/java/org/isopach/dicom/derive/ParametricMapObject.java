package org.isopach.dicom.derive;

import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/** The attributes of a Parametric Map (DICOM PS3.3, A.75; from memory) but where it lies. */
final class ParametricMapObject {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.30";

  private static final String SERIES_NUMBER = "8106";
  private static final String[] TYPE = {"DERIVED", "PRIMARY", "RETINA", "THICKNESS"};
  private static final Code RETINA = new Code("5665001", "SCT", "Retina");

  /** PS3.3, C.7.6.16.2.11: what the values are; code from memory. */
  private static final Code QUANTITY = new Code("246205007", "SCT", "Quantity");

  private ParametricMapObject() {}

  /**
   * Adds everything but the plane.
   *
   * @param sources the scan whose study it belongs to, then any other
   * @param names all that the content depends on
   */
  static void addTo(
      Dataset.Builder object,
      MicrometreMap map,
      Laterality eye,
      Dataset header,
      List<InstanceReference> sources,
      DerivedProvenance provenance,
      String[] names) {
    object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SOP_INSTANCE_UID, Vr.UI, DerivedUids.of("parametric-map", names))
        .text(Tags.SERIES_INSTANCE_UID, Vr.UI, DerivedUids.of("parametric-map-series", names))
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, map.name())
        .text(Tags.MODALITY, Vr.CS, "OPM")
        .text(Tags.INSTANCE_NUMBER, Vr.IS, "1")
        .text(Tags.IMAGE_TYPE, Vr.CS, TYPE)
        .text(Tags.PATIENT_ORIENTATION, Vr.CS, "L", "F")
        .text(Tags.CONTENT_LABEL, Vr.CS, map.label())
        .text(Tags.CONTENT_DESCRIPTION, Vr.LO, Caution.SHORT)
        .text(Tags.CONTENT_CREATOR_NAME, Vr.PN)
        .text(Tags.CONTENT_QUALIFICATION, Vr.CS, "RESEARCH")
        .text(Tags.BURNED_IN_ANNOTATION, Vr.CS, "NO")
        .text(Tags.RECOGNIZABLE_VISUAL_FEATURES, Vr.CS, "NO")
        .text(Tags.NUMBER_OF_FRAMES, Vr.IS, "1")
        .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
        .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME2")
        .text(Tags.PRESENTATION_LUT_SHAPE, Vr.CS, "IDENTITY")
        .numbers(Tags.ROWS, Vr.US, map.lattice().rows())
        .numbers(Tags.COLUMNS, Vr.US, map.lattice().columns())
        .numbers(Tags.BITS_ALLOCATED, Vr.US, Float.SIZE)
        .items(Tags.ACQUISITION_CONTEXT_SEQUENCE);
    SegmentParts.addCompression(object, header);
    InstanceReference.addAll(object, sources.get(0).studyUid(), sources);
    groups(object, map, eye, derivation(sources, provenance));
    String organization = DerivedUids.of("parametric-map-dimensions", names);
    SegmentParts.addDimensions(
        object,
        organization,
        new int[] {Tags.IN_STACK_POSITION_NUMBER, Tags.FRAME_CONTENT_SEQUENCE});
  }

  /** Returns how the map was derived, by which program, from which scans. */
  private static Dataset derivation(List<InstanceReference> sources, DerivedProvenance provenance) {
    List<Dataset> images = new ArrayList<>();
    for (InstanceReference source : sources) {
      images.add(
          source
              .toItem()
              .items(Tags.PURPOSE_OF_REFERENCE_CODE_SEQUENCE, SegmentParts.SOURCE_IMAGE.toItem())
              .build());
    }
    return Dataset.builder()
        .text(Tags.DERIVATION_DESCRIPTION, Vr.ST, DerivedSource.algorithm(provenance))
        .items(Tags.DERIVATION_CODE_SEQUENCE, SegmentParts.SEGMENTATION.toItem())
        .items(Tags.SOURCE_IMAGE_SEQUENCE, images)
        .build();
  }

  private static void groups(
      Dataset.Builder object, MicrometreMap map, Laterality eye, Dataset derivation) {
    Dataset.Builder shared =
        Dataset.builder()
            .items(Tags.DERIVATION_IMAGE_SEQUENCE, derivation)
            .items(
                Tags.FRAME_ANATOMY_SEQUENCE,
                Dataset.builder()
                    .text(Tags.FRAME_LATERALITY, Vr.CS, eye.code())
                    .items(Tags.ANATOMIC_REGION_SEQUENCE, RETINA.toItem())
                    .build())
            .items(
                Tags.PARAMETRIC_MAP_FRAME_TYPE_SEQUENCE,
                Dataset.builder().text(Tags.FRAME_TYPE, Vr.CS, TYPE).build())
            .items(
                Tags.PIXEL_VALUE_TRANSFORMATION_SEQUENCE,
                Dataset.builder()
                    .text(Tags.RESCALE_INTERCEPT, Vr.DS, "0")
                    .text(Tags.RESCALE_SLOPE, Vr.DS, "1")
                    .text(Tags.RESCALE_TYPE, Vr.LO, "US")
                    .build())
            .items(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE, realWorld(map));
    object
        .items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, shared.build())
        .items(
            Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE,
            Dataset.builder()
                .items(
                    Tags.FRAME_CONTENT_SEQUENCE,
                    Dataset.builder()
                        .numbers(Tags.DIMENSION_INDEX_VALUES, Vr.UL, 1)
                        .text(Tags.STACK_ID, Vr.SH, "1")
                        .numbers(Tags.IN_STACK_POSITION_NUMBER, Vr.UL, 1)
                        .build())
                .build());
  }

  private static Dataset realWorld(MicrometreMap map) {
    float[] range = ParametricMapWriter.range(map);
    Dataset.Builder mapping =
        Dataset.builder()
            .text(Tags.LUT_EXPLANATION, Vr.LO, map.name())
            .text(Tags.LUT_LABEL, Vr.SH, map.label())
            .items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, MacularGridCodes.MICROMETRE.toItem())
            .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.FD, range[0])
            .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.FD, range[1])
            .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, 0)
            .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, 1);
    List<Dataset> definition = new ArrayList<>();
    map.quantity().ifPresent(code -> definition.add(item(QUANTITY, code)));
    map.changed().ifPresent(code -> definition.add(item(ChangeCode.DEFINITION, code)));
    if (!definition.isEmpty()) {
      mapping.items(Tags.QUANTITY_DEFINITION_SEQUENCE, definition);
    }
    return mapping.build();
  }

  private static Dataset item(Code name, Code value) {
    return Dataset.builder()
        .text(Tags.VALUE_TYPE, Vr.CS, "CODE")
        .items(Tags.CONCEPT_NAME_CODE_SEQUENCE, name.toItem())
        .items(Tags.CONCEPT_CODE_SEQUENCE, value.toItem())
        .build();
  }
}
