package org.isopach.dicom.derive;

import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.eye.Laterality;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/**
 * What height maps and segmentations have in common (DICOM PS3.3, C.8.20): segments, their place in
 * frames, what they were derived from.
 */
final class SegmentParts {
  private static final int PARAMETERS = 10240;

  /** CID 7162; from memory. */
  private static final Code FAMILY = new Code("123110", "DCM", "Artificial Intelligence");

  static final Code SEGMENTATION = new Code("113076", "DCM", "Segmentation");
  static final Code SOURCE_IMAGE =
      new Code("121322", "DCM", "Source image for image processing operation");

  private SegmentParts() {}

  /** What one segment is. */
  record Segment(String label, Code category, Code type) {}

  /**
   * Adds series, content identification, coordinate system and references.
   *
   * @param names everything the content depends on
   */
  static void addIdentity(Dataset.Builder object, String kind, Dataset header, String[] names) {
    object
        .text(Tags.SOP_INSTANCE_UID, Vr.UI, DerivedUids.of(kind, names))
        .text(Tags.SERIES_INSTANCE_UID, Vr.UI, DerivedUids.of(kind + "-series", names))
        .text(Tags.MODALITY, Vr.CS, "SEG")
        .text(Tags.INSTANCE_NUMBER, Vr.IS, "1")
        .text(Tags.IMAGE_TYPE, Vr.CS, "DERIVED", "PRIMARY")
        .text(Tags.PATIENT_ORIENTATION, Vr.CS)
        .text(Tags.CONTENT_DESCRIPTION, Vr.LO, Caution.SHORT)
        .text(Tags.CONTENT_CREATOR_NAME, Vr.PN)
        .text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, frameOfReference(header))
        .text(Tags.POSITION_REFERENCE_INDICATOR, Vr.LO)
        .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
        .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME2")
        .text(Tags.BURNED_IN_ANNOTATION, Vr.CS, "NO");
    InstanceReference source = DerivedSource.reference(header);
    InstanceReference.addAll(object, source.studyUid(), List.of(source));
  }

  /** The source's own system; without one, a system that stands for the source's voxels. */
  private static String frameOfReference(Dataset header) {
    return header
        .text(Tags.FRAME_OF_REFERENCE_UID)
        .orElseGet(
            () ->
                DerivedUids.of("frame-of-scan", header.text(Tags.SOP_INSTANCE_UID).orElseThrow()));
  }

  /** Adds whether the source was compressed with loss, and how. */
  static void addCompression(Dataset.Builder object, Dataset header) {
    boolean lossy = header.text(Tags.LOSSY_IMAGE_COMPRESSION).filter("01"::equals).isPresent();
    object.text(Tags.LOSSY_IMAGE_COMPRESSION, Vr.CS, lossy ? "01" : "00");
    if (lossy) {
      header.element(Tags.LOSSY_IMAGE_COMPRESSION_RATIO).ifPresent(object::put);
      header.element(Tags.LOSSY_IMAGE_COMPRESSION_METHOD).ifPresent(object::put);
    }
  }

  /** Adds the segments, numbered from 1 in the order given. */
  static void addSegments(
      Dataset.Builder object,
      List<Segment> segments,
      Laterality laterality,
      DerivedProvenance provenance) {
    Dataset eye = EyeCode.region(laterality);
    List<Dataset> items = new ArrayList<>();
    for (Segment segment : segments) {
      items.add(
          Dataset.builder()
              .numbers(Tags.SEGMENT_NUMBER, Vr.US, items.size() + 1)
              .text(Tags.SEGMENT_LABEL, Vr.LO, segment.label())
              .items(Tags.ANATOMIC_REGION_SEQUENCE, eye)
              .text(Tags.SEGMENT_ALGORITHM_TYPE, Vr.CS, "AUTOMATIC")
              .text(Tags.SEGMENT_ALGORITHM_NAME, Vr.LO, DerivedEquipment.MAKER)
              .items(Tags.SEGMENTED_PROPERTY_CATEGORY_CODE_SEQUENCE, segment.category().toItem())
              .items(Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE, segment.type().toItem())
              .items(Tags.SEGMENTATION_ALGORITHM_IDENTIFICATION_SEQUENCE, algorithm(provenance))
              .build());
    }
    object.items(Tags.SEGMENT_SEQUENCE, items);
  }

  private static Dataset algorithm(DerivedProvenance provenance) {
    return algorithm(FAMILY, provenance);
  }

  /** Returns the item that identifies an algorithm: family, name, version, parameters. */
  static Dataset algorithm(Code family, DerivedProvenance provenance) {
    Dataset.Builder item =
        Dataset.builder()
            .items(Tags.ALGORITHM_FAMILY_CODE_SEQUENCE, family.toItem())
            .text(Tags.ALGORITHM_NAME, Vr.LO, DerivedEquipment.MAKER)
            .text(Tags.ALGORITHM_VERSION, Vr.LO, provenance.softwareVersion());
    if (!provenance.parameters().isEmpty()) {
      item.text(
          Tags.ALGORITHM_PARAMETERS,
          Vr.LT,
          DerivedSource.ascii(provenance.parameters(), PARAMETERS));
    }
    return item.build();
  }

  /** Adds the dimensions, named by pairs of attribute and functional group. */
  static void addDimensions(Dataset.Builder object, String organizationUid, int[]... pointers) {
    List<Dataset> indices = new ArrayList<>();
    for (int[] pointer : pointers) {
      indices.add(
          Dataset.builder()
              .text(Tags.DIMENSION_ORGANIZATION_UID, Vr.UI, organizationUid)
              .text(Tags.DIMENSION_INDEX_POINTER, Vr.AT, hexadecimal(pointer[0]))
              .text(Tags.FUNCTIONAL_GROUP_POINTER, Vr.AT, hexadecimal(pointer[1]))
              .build());
    }
    object
        .items(
            Tags.DIMENSION_ORGANIZATION_SEQUENCE,
            Dataset.builder().text(Tags.DIMENSION_ORGANIZATION_UID, Vr.UI, organizationUid).build())
        .items(Tags.DIMENSION_INDEX_SEQUENCE, indices);
  }

  private static String hexadecimal(int tag) {
    return String.format("%08X", tag);
  }

  /** Returns the start of a frame's functional groups: its segment and its place in dimensions. */
  static Dataset.Builder frame(int segment, double... indices) {
    return Dataset.builder()
        .items(
            Tags.FRAME_CONTENT_SEQUENCE,
            Dataset.builder().numbers(Tags.DIMENSION_INDEX_VALUES, Vr.UL, indices).build())
        .items(
            Tags.SEGMENT_IDENTIFICATION_SEQUENCE,
            Dataset.builder().numbers(Tags.REFERENCED_SEGMENT_NUMBER, Vr.US, segment).build());
  }

  /**
   * Returns the item of the Derivation Image Sequence.
   *
   * @param frame a frame of the source, counted from 1; 0 for all of them
   */
  static Dataset derivation(Dataset header, int frame) {
    Dataset.Builder source = DerivedSource.reference(header).toItem();
    if (frame > 0) {
      source.text(Tags.REFERENCED_FRAME_NUMBER, Vr.IS, Integer.toString(frame));
    }
    return Dataset.builder()
        .items(Tags.DERIVATION_CODE_SEQUENCE, SEGMENTATION.toItem())
        .items(
            Tags.SOURCE_IMAGE_SEQUENCE,
            source.items(Tags.PURPOSE_OF_REFERENCE_CODE_SEQUENCE, SOURCE_IMAGE.toItem()).build())
        .build();
  }
}
