package org.isopach.dicom.derive;

import java.util.ArrayList;
import java.util.List;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;

/**
 * Which attributes of the source a derived object takes over, unchanged but for the encoding of
 * text: whatever character set the source declares, the derived object is in UTF-8.
 */
final class SourceCopy {
  private static final String UTF_8 = "ISO_IR 192";

  /** Patient, study and clinical trial; taken over when present. */
  private static final int[] AS_FOUND = {
    Tags.TIMEZONE_OFFSET_FROM_UTC,
    Tags.STUDY_DESCRIPTION,
    Tags.ISSUER_OF_PATIENT_ID,
    Tags.PATIENT_AGE,
    Tags.PATIENT_IDENTITY_REMOVED,
    Tags.DE_IDENTIFICATION_METHOD,
    Tags.DE_IDENTIFICATION_METHOD_CODE_SEQUENCE,
    Tags.CLINICAL_TRIAL_SPONSOR_NAME,
    Tags.CLINICAL_TRIAL_PROTOCOL_ID,
    Tags.CLINICAL_TRIAL_PROTOCOL_NAME,
    Tags.CLINICAL_TRIAL_SITE_ID,
    Tags.CLINICAL_TRIAL_SITE_NAME,
    Tags.CLINICAL_TRIAL_SUBJECT_ID,
    Tags.CLINICAL_TRIAL_SUBJECT_READING_ID,
    Tags.CLINICAL_TRIAL_TIME_POINT_ID,
    Tags.CLINICAL_TRIAL_TIME_POINT_DESCRIPTION,
  };

  /** What else a map says of its scan; taken over when present. */
  private static final int[] OF_SCAN_AS_FOUND = {
    Tags.LOSSY_IMAGE_COMPRESSION_RATIO,
    Tags.LOSSY_IMAGE_COMPRESSION_METHOD,
    Tags.MYDRIATIC_AGENT_SEQUENCE,
    Tags.DEGREE_OF_DILATION,
  };

  private record Kept(int tag, Vr vr) {}

  /** Type 2 attributes: taken over when present, else present and empty. */
  private static final List<Kept> OR_EMPTY =
      List.of(
          new Kept(Tags.PATIENT_NAME, Vr.PN),
          new Kept(Tags.PATIENT_ID, Vr.LO),
          new Kept(Tags.PATIENT_BIRTH_DATE, Vr.DA),
          new Kept(Tags.PATIENT_SEX, Vr.CS),
          new Kept(Tags.STUDY_DATE, Vr.DA),
          new Kept(Tags.STUDY_TIME, Vr.TM),
          new Kept(Tags.STUDY_ID, Vr.SH),
          new Kept(Tags.ACCESSION_NUMBER, Vr.SH),
          new Kept(Tags.REFERRING_PHYSICIAN_NAME, Vr.PN));

  /** Type 2 attributes of the scan, likewise. */
  private static final List<Kept> OF_SCAN_OR_EMPTY =
      List.of(
          new Kept(Tags.PATIENT_EYE_MOVEMENT_COMMANDED, Vr.CS),
          new Kept(Tags.HORIZONTAL_FIELD_OF_VIEW, Vr.FL),
          new Kept(Tags.REFRACTIVE_STATE_SEQUENCE, Vr.SQ),
          new Kept(Tags.EMMETROPIC_MAGNIFICATION, Vr.FL),
          new Kept(Tags.INTRA_OCULAR_PRESSURE, Vr.FL),
          new Kept(Tags.PUPIL_DILATED, Vr.CS));

  private SourceCopy() {}

  /** Adds what a map takes over. */
  static void addTo(Dataset.Builder object, Dataset source) {
    addPatientAndStudy(object, source);
    add(object, source, OF_SCAN_AS_FOUND, OF_SCAN_OR_EMPTY);
    boolean dilated = source.text(Tags.PUPIL_DILATED).filter("YES"::equals).isPresent();
    if (!dilated) {
      object.remove(Tags.MYDRIATIC_AGENT_SEQUENCE);
      object.remove(Tags.DEGREE_OF_DILATION);
    } else {
      if (!source.has(Tags.MYDRIATIC_AGENT_SEQUENCE)) {
        putEmpty(object, Tags.MYDRIATIC_AGENT_SEQUENCE, Vr.SQ);
      }
      if (!source.has(Tags.DEGREE_OF_DILATION)) {
        putEmpty(object, Tags.DEGREE_OF_DILATION, Vr.FL);
      }
    }
  }

  /** Adds patient, study and clinical trial: what any derived object takes over. */
  static void addPatientAndStudy(Dataset.Builder object, Dataset source) {
    if (source.has(Tags.SPECIFIC_CHARACTER_SET)) {
      object.text(Tags.SPECIFIC_CHARACTER_SET, Vr.CS, UTF_8);
    }
    add(object, source, AS_FOUND, OR_EMPTY);
  }

  private static void add(
      Dataset.Builder object, Dataset source, int[] asFound, List<Kept> orEmpty) {
    for (int tag : asFound) {
      source.element(tag).ifPresent(object::put);
    }
    for (Kept kept : orEmpty) {
      source
          .element(kept.tag())
          .ifPresentOrElse(object::put, () -> putEmpty(object, kept.tag(), kept.vr()));
    }
  }

  /** Returns the names of values that a report or a segmentation needs and the source lacks. */
  static List<String> lackingOfAny(Dataset source) {
    List<String> lacking = new ArrayList<>();
    requireIdentity(source, lacking);
    require(source, Tags.SERIES_INSTANCE_UID, "Series Instance UID", lacking);
    return lacking;
  }

  private static void requireIdentity(Dataset source, List<String> lacking) {
    require(source, Tags.STUDY_INSTANCE_UID, "Study Instance UID", lacking);
    require(source, Tags.SOP_CLASS_UID, "SOP Class UID", lacking);
    require(source, Tags.SOP_INSTANCE_UID, "SOP Instance UID", lacking);
    require(source, Tags.ACQUISITION_DATETIME, "Acquisition DateTime", lacking);
  }

  /** Returns the names of values that a map must have and the source lacks. */
  static List<String> lacking(Dataset source) {
    List<String> lacking = new ArrayList<>();
    requireIdentity(source, lacking);
    require(source, Tags.DEPTH_SPATIAL_RESOLUTION, "Depth Spatial Resolution", lacking);
    require(source, Tags.MAXIMUM_DEPTH_DISTORTION, "Maximum Depth Distortion", lacking);
    if (source.text(Tags.LOSSY_IMAGE_COMPRESSION).filter("01"::equals).isPresent()) {
      require(source, Tags.LOSSY_IMAGE_COMPRESSION_RATIO, "Lossy Image Compression Ratio", lacking);
      require(
          source, Tags.LOSSY_IMAGE_COMPRESSION_METHOD, "Lossy Image Compression Method", lacking);
    }
    return lacking;
  }

  private static void require(Dataset source, int tag, String name, List<String> lacking) {
    if (source.element(tag).map(e -> e.multiplicity() == 0).orElse(true)) {
      lacking.add(name);
    }
  }

  private static void putEmpty(Dataset.Builder object, int tag, Vr vr) {
    switch (vr) {
      case SQ -> object.items(tag);
      case FL -> object.numbers(tag, vr);
      default -> object.text(tag, vr);
    }
  }
}
