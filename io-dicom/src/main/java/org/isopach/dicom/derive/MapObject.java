package org.isopach.dicom.derive;

import java.util.Arrays;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.Sha256;
import org.isopach.dicom.Caution;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/** The attributes of an Ophthalmic Thickness Map (DICOM PS3.3, A.65 and C.8.28). */
final class MapObject {
  static final String SOP_CLASS_UID = "1.2.840.10008.5.1.4.1.1.81.1";

  private static final String SERIES_NUMBER = "8101";
  private static final Code MICROMETRE = new Code("um", "UCUM", "micrometer");
  private static final Code ABSOLUTE = new Code("111930", "DCM", "Absolute ophthalmic thickness");
  private static final Code EYE = new Code("81745001", "SCT", "Eye");

  private MapObject() {}

  /**
   * Adds all attributes but where the map lies, what the source lends, and the pixel data, which
   * only name the object.
   */
  static void addTo(
      Dataset.Builder object,
      ThicknessMap map,
      ThicknessDefinition definition,
      Dataset source,
      MapProvenance provenance,
      byte[] stored) {
    identity(object, map, definition, source, provenance, stored);
    DerivedEquipment.addTo(object, source, provenance.softwareVersion());
    content(object, map, definition, source, provenance);
    pixels(object, map, source);
    mapping(object, definition);
    ThicknessPalette.addTo(object);
  }

  private static void identity(
      Dataset.Builder object,
      ThicknessMap map,
      ThicknessDefinition definition,
      Dataset source,
      MapProvenance provenance,
      byte[] stored) {
    String[] run = {
      source.text(Tags.SOP_INSTANCE_UID).orElseThrow(),
      map.document().sha256(),
      provenance.softwareVersion(),
      provenance.parameters(),
      Double.toString(provenance.lateralScale()),
      map.centre().toString(),
    };
    object
        .text(Tags.SOP_CLASS_UID, Vr.UI, SOP_CLASS_UID)
        .text(Tags.SOP_INSTANCE_UID, Vr.UI, instanceUid(map, stored, run))
        .text(Tags.SERIES_INSTANCE_UID, Vr.UI, DerivedUids.of("thickness-map-series", run))
        .text(Tags.SERIES_NUMBER, Vr.IS, SERIES_NUMBER)
        .text(Tags.SERIES_DESCRIPTION, Vr.LO, "Retinal thickness maps")
        .text(Tags.MODALITY, Vr.CS, "OPM")
        .text(Tags.INSTANCE_NUMBER, Vr.IS, Integer.toString(definition.instanceNumber()))
        .put(source.element(Tags.STUDY_INSTANCE_UID).orElseThrow());
  }

  private static String instanceUid(ThicknessMap map, byte[] stored, String[] run) {
    String[] names = Arrays.copyOf(run, run.length + 3);
    names[run.length] = map.layer().name();
    names[run.length + 1] = map.lattice().toString();
    names[run.length + 2] = Sha256.of(stored);
    return DerivedUids.of("thickness-map", names);
  }

  private static void content(
      Dataset.Builder object,
      ThicknessMap map,
      ThicknessDefinition definition,
      Dataset source,
      MapProvenance provenance) {
    String acquired = source.text(Tags.ACQUISITION_DATETIME).orElseThrow();
    object
        .text(Tags.IMAGE_TYPE, Vr.CS, "DERIVED", "PRIMARY", "RETINAL_THICK")
        .text(Tags.ACQUISITION_DATETIME, Vr.DT, acquired)
        .text(Tags.CONTENT_DATE, Vr.DA, AcquiredAt.date(acquired))
        .text(Tags.CONTENT_TIME, Vr.TM, AcquiredAt.time(acquired))
        .text(Tags.DERIVATION_DESCRIPTION, Vr.ST, description(map, provenance))
        .text(Tags.IMAGE_COMMENTS, Vr.LT, Caution.LINE)
        .text(Tags.PATIENT_ORIENTATION, Vr.CS, "L", "F")
        .text(Tags.IMAGE_LATERALITY, Vr.CS, map.laterality().code())
        .text(Tags.BURNED_IN_ANNOTATION, Vr.CS, "NO")
        .text(Tags.RECOGNIZABLE_VISUAL_FEATURES, Vr.CS, "NO")
        .items(Tags.ACQUISITION_CONTEXT_SEQUENCE)
        .items(Tags.ANATOMIC_REGION_SEQUENCE, EYE.toItem())
        .text(Tags.OPHTHALMIC_MAPPING_DEVICE_TYPE, Vr.CS, "OCT")
        .items(Tags.ACQUISITION_METHOD_CODE_SEQUENCE, provenance.method().code().toItem())
        .items(Tags.OPHTHALMIC_THICKNESS_MAP_TYPE_CODE_SEQUENCE, ABSOLUTE.toItem())
        .items(Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE, definition.code().toItem())
        .items(
            Tags.RELEVANT_OPT_ATTRIBUTES_SEQUENCE,
            Dataset.builder()
                .put(source.element(Tags.DEPTH_SPATIAL_RESOLUTION).orElseThrow())
                .put(source.element(Tags.MAXIMUM_DEPTH_DISTORTION).orElseThrow())
                .build());
  }

  private static String description(ThicknessMap map, MapProvenance provenance) {
    String text =
        map.layer().name()
            + " thickness along the A-scan, um; "
            + DerivedEquipment.MAKER
            + " "
            + provenance.softwareVersion()
            + (provenance.parameters().isEmpty() ? "" : "; " + provenance.parameters());
    String ascii = text.replace("\u00b5", "u").replaceAll("[^\\x20-\\x7e]", "?");
    return ascii.length() <= 1024 ? ascii : ascii.substring(0, 1021) + "...";
  }

  private static void pixels(Dataset.Builder object, ThicknessMap map, Dataset source) {
    String step = DecimalText.of(map.lattice().stepMm());
    object
        .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
        .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME2")
        .numbers(Tags.ROWS, Vr.US, map.lattice().rows())
        .numbers(Tags.COLUMNS, Vr.US, map.lattice().columns())
        .text(Tags.PIXEL_SPACING, Vr.DS, step, step)
        .text(Tags.PIXEL_ASPECT_RATIO, Vr.IS, "1", "1")
        .numbers(Tags.BITS_ALLOCATED, Vr.US, 16)
        .numbers(Tags.BITS_STORED, Vr.US, 16)
        .numbers(Tags.HIGH_BIT, Vr.US, 15)
        .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 0)
        .numbers(Tags.PIXEL_PADDING_VALUE, Vr.US, StoredThickness.NO_VALUE)
        .text(Tags.PIXEL_PRESENTATION, Vr.CS, "COLOR")
        .text(
            Tags.LOSSY_IMAGE_COMPRESSION,
            Vr.CS,
            source.text(Tags.LOSSY_IMAGE_COMPRESSION).filter("01"::equals).orElse("00"));
  }

  private static void mapping(Dataset.Builder object, ThicknessDefinition definition) {
    Dataset.Builder item =
        Dataset.builder()
            .text(Tags.LUT_EXPLANATION, Vr.LO, definition.code().meaning())
            .text(Tags.LUT_LABEL, Vr.SH, "THICKNESS")
            .items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, MICROMETRE.toItem())
            .numbers(Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.US, StoredThickness.FIRST)
            .numbers(Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.US, StoredThickness.LAST)
            .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, StoredThickness.INTERCEPT_UM)
            .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, StoredThickness.SLOPE_UM);
    object.items(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE, item.build());
  }
}
