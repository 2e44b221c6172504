package org.isopach.dicom.read;

import java.util.Locale;

/** Tags of the attributes that are read (DICOM PS3.6, chapter 6). */
public final class Tag {
  public static final int TRANSFER_SYNTAX_UID = 0x00020010;
  public static final int IMAGE_TYPE = 0x00080008;
  public static final int SOP_CLASS_UID = 0x00080016;
  public static final int SOP_INSTANCE_UID = 0x00080018;
  public static final int STUDY_DATE = 0x00080020;
  public static final int ACQUISITION_DATE = 0x00080022;
  public static final int CONTENT_DATE = 0x00080023;
  public static final int ACQUISITION_DATETIME = 0x0008002A;
  public static final int STUDY_TIME = 0x00080030;
  public static final int ACQUISITION_TIME = 0x00080032;
  public static final int CONTENT_TIME = 0x00080033;
  public static final int MANUFACTURER = 0x00080070;
  public static final int CODE_VALUE = 0x00080100;
  public static final int CODE_SCHEME = 0x00080102;
  public static final int CODE_MEANING = 0x00080104;
  public static final int MODEL_NAME = 0x00081090;
  public static final int REFERENCED_INSTANCE_SEQUENCE = 0x0008114A;
  public static final int REFERENCED_SOP_CLASS_UID = 0x00081150;
  public static final int REFERENCED_SOP_INSTANCE_UID = 0x00081155;
  public static final int SOURCE_IMAGE_SEQUENCE = 0x00082112;
  public static final int ANATOMIC_REGION_SEQUENCE = 0x00082218;
  public static final int PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE = 0x00082228;
  public static final int PATIENT_ID = 0x00100020;
  public static final int STUDY_INSTANCE_UID = 0x0020000D;
  public static final int SERIES_INSTANCE_UID = 0x0020000E;
  public static final int IMAGE_POSITION_PATIENT = 0x00200032;
  public static final int IMAGE_ORIENTATION_PATIENT = 0x00200037;
  public static final int FRAME_OF_REFERENCE_UID = 0x00200052;
  public static final int LATERALITY = 0x00200060;
  public static final int IMAGE_LATERALITY = 0x00200062;
  public static final int FRAME_ANATOMY_SEQUENCE = 0x00209071;
  public static final int FRAME_LATERALITY = 0x00209072;
  public static final int PLANE_POSITION_SEQUENCE = 0x00209113;
  public static final int PLANE_ORIENTATION_SEQUENCE = 0x00209116;
  public static final int AXIAL_LENGTH = 0x00220030;
  public static final int FRAME_LOCATION_SEQUENCE = 0x00220031;
  public static final int REFERENCE_COORDINATES = 0x00220032;
  public static final int OPHTHALMIC_IMAGE_ORIENTATION = 0x00220039;
  public static final int THICKNESS_MAP_TYPE_SEQUENCE = 0x00221436;
  public static final int THICKNESS_DEFINITION_SEQUENCE = 0x00221445;
  public static final int ANATOMIC_REFERENCE_POINT = 0x00221463;
  public static final int SAMPLES_PER_PIXEL = 0x00280002;
  public static final int PHOTOMETRIC = 0x00280004;
  public static final int NUMBER_OF_FRAMES = 0x00280008;
  public static final int ROWS = 0x00280010;
  public static final int COLUMNS = 0x00280011;
  public static final int PIXEL_SPACING = 0x00280030;
  public static final int BITS_ALLOCATED = 0x00280100;
  public static final int BITS_STORED = 0x00280101;
  public static final int HIGH_BIT = 0x00280102;
  public static final int PIXEL_REPRESENTATION = 0x00280103;
  public static final int PIXEL_PADDING_VALUE = 0x00280120;
  public static final int PIXEL_PADDING_RANGE_LIMIT = 0x00280121;
  public static final int PIXEL_MEASURES_SEQUENCE = 0x00289110;
  public static final int MEASUREMENT_UNITS_SEQUENCE = 0x004008EA;
  public static final int REAL_WORLD_MAPPING_SEQUENCE = 0x00409096;
  public static final int REAL_WORLD_LAST = 0x00409211;
  public static final int REAL_WORLD_LUT = 0x00409212;
  public static final int REAL_WORLD_LAST_DOUBLE = 0x00409213;
  public static final int REAL_WORLD_FIRST_DOUBLE = 0x00409214;
  public static final int REAL_WORLD_FIRST = 0x00409216;
  public static final int REAL_WORLD_INTERCEPT = 0x00409224;
  public static final int REAL_WORLD_SLOPE = 0x00409225;
  public static final int ICON_IMAGE_SEQUENCE = 0x00880200;
  public static final int SHARED_GROUPS_SEQUENCE = 0x52009229;
  public static final int PER_FRAME_GROUPS_SEQUENCE = 0x52009230;
  public static final int PIXEL_DATA = 0x7FE00010;
  public static final int ITEM = 0xFFFEE000;
  public static final int ITEM_END = 0xFFFEE00D;
  public static final int SEQUENCE_END = 0xFFFEE0DD;

  private Tag() {}

  /** Returns a tag as the standard writes it, for example {@code (0028,0030)}. */
  public static String name(int tag) {
    return String.format(Locale.ROOT, "(%04X,%04X)", tag >>> 16, tag & 0xffff);
  }
}
