package org.isopach.analysis.finding;

/**
 * What reading and measuring can have to say about an object. One place turns kinds into exit
 * codes, others into sentences; the kind itself says only how grave it is and what to do.
 */
public enum FindingKind {
  UNREADABLE_FILE(
      Gravity.NOT_MEASURED, "check that the file exists and may be read, or copy it again"),
  NOT_DICOM(Gravity.SKIPPED, "remove the file from the folder or leave it; it is ignored"),
  NOT_OPHTHALMIC(Gravity.SKIPPED, "nothing to do; the object is of another kind"),
  DERIVED_OBJECT(
      Gravity.SKIPPED,
      "nothing to do; 'isopach crosscheck' sets it beside the scan it was made from"),
  DERIVED_NOT_READ(
      Gravity.NOTE, "fetch the object again or have its sender correct it; no scan depends on it"),
  NOT_COMPARED_WITH_SCAN(
      Gravity.PARTLY_MEASURED,
      "give the scan with it, or look at the reasons in crosscheck.csv; no difference is given"),
  LINES_NOT_COMPARED(
      Gravity.NOTE, "crosscheck.csv has a reason for each line without a difference"),
  NOT_RETINAL_SECTION(Gravity.SKIPPED, "nothing to do; the frames do not cut the retina in depth"),
  ATTRIBUTE_IGNORED(
      Gravity.NOTE, "have the object's sender correct the attribute; it was left out of account"),
  TRUNCATED(Gravity.NOT_MEASURED, "fetch the object from the archive again"),
  PIXEL_DATA_SHORT(Gravity.NOT_MEASURED, "fetch the object from the archive again"),
  UNSUPPORTED_ENCODING(
      Gravity.NOT_MEASURED, "ask the archive for Explicit VR Little Endian or JPEG 2000"),
  MALFORMED_ATTRIBUTE(Gravity.NOT_MEASURED, "have the object's sender correct the attribute"),
  NO_FRAMES(Gravity.NOT_MEASURED, "have the object's sender correct Number of Frames"),
  NO_AXIAL_SPACING(
      Gravity.NOT_MEASURED,
      "have the object's sender give Pixel Spacing; depth is unknown without"),
  NO_PLACEMENT(
      Gravity.PARTLY_MEASURED,
      "have the sender give Ophthalmic Frame Location or Plane Position; boundaries only"),
  NO_LATERALITY(
      Gravity.PARTLY_MEASURED, "have the sender give Image Laterality; boundaries only until then"),
  LATERALITY_CONTRADICTION(
      Gravity.PARTLY_MEASURED, "find out which eye it is and correct the object; boundaries only"),
  LATERALITY_DOUBTFUL(
      Gravity.NOTE, "check which eye this is: the picture looks like the other one"),
  DUPLICATE_DIFFERENT(
      Gravity.NOT_MEASURED,
      "two objects claim one SOP Instance UID; keep the right one and remove the other"),
  DUPLICATE_SAME(Gravity.NOTE, "nothing to do; the copy is ignored"),
  LINK_LOOP(Gravity.SKIPPED, "remove the symbolic link; it leads back into the folder"),
  REFERENCE_IMAGE_MISSING(
      Gravity.NOTE, "add the fundus image to the folder if the map must be placed on it"),
  SCALE_CONTRADICTION(
      Gravity.NOTE, "two lateral scales in one object disagree; the stated one was used"),
  SINGLE_LINE(Gravity.PARTLY_MEASURED, "a grid needs a volume; boundaries only"),
  PATTERN_WITHOUT_GRID(
      Gravity.PARTLY_MEASURED, "a grid needs a volume over the fovea; boundaries only"),
  CONSTANT_IMAGE(Gravity.NOT_MEASURED, "repeat the scan; every pixel has the same grey"),
  NO_RETINA(Gravity.NOT_MEASURED, "look at the scan; no retina was recognised in it"),
  UPSIDE_DOWN(
      Gravity.NOT_MEASURED, "export or acquire the scan again with the vitreous at the top"),
  SATURATED(
      Gravity.NOT_MEASURED, "repeat the scan with less gain; much of the picture is fully bright"),
  GREY_INVERTED(
      Gravity.NOT_MEASURED,
      "export the scan with bright tissue on a dark ground; greys are reversed"),
  ROTATED(Gravity.NOT_MEASURED, "export the scan with depth running down the rows of each frame"),
  ANTERIOR_SEGMENT(
      Gravity.NOT_MEASURED, "nothing to do; the scan shows the front of the eye, not the retina"),
  NO_MACULA(
      Gravity.PARTLY_MEASURED,
      "a grid needs a volume over the fovea, this one lies on the disc; boundaries only, 'isopach"
          + " nerve' measures the disc"),
  FRAMES_TOO_FAR_APART(
      Gravity.PARTLY_MEASURED,
      "repeat the scan with frames closer together; boundaries only until then"),
  ASCANS_TOO_FAR_APART(
      Gravity.PARTLY_MEASURED,
      "repeat the scan with A-scans closer together; boundaries only until then"),
  DEPTH_TOO_COARSE(
      Gravity.NOT_MEASURED, "check Pixel Spacing, or repeat the scan with finer depth pixels"),
  LOW_SIGNAL(Gravity.NOTE, "repeat the scan with a better signal; trust single depths less"),
  LOW_SIGNAL_FRAMES(Gravity.NOTE, "nothing was measured in these frames; repeat the scan"),
  DARK_FRAMES(Gravity.NOTE, "nothing was measured in these frames, as in a blink"),
  RETINA_CUT_OFF(
      Gravity.NOTE, "repeat the scan with the whole retina in the frame; sectors may be refused"),
  MIRROR_IMAGE(
      Gravity.NOTE, "repeat the scan deeper in its range; nothing was measured under the fold"),
  MOTION_STEPS(
      Gravity.NOTE,
      "repeat the scan if places matter: where the eye moved, frames may lie elsewhere"),
  DECENTRED(Gravity.NOTE, "repeat the scan centred on the fovea; outer sectors may be refused"),
  FOVEA_NOT_FOUND(
      Gravity.NOTE, "check the centre: no foveal pit was found, the middle of the scan was used"),
  FOVEA_BY_INNER_LAYERS(
      Gravity.NOTE, "check the centre: the pit is filled or lifted, inner layers tell where it is"),
  LAYER_NOT_SEARCHED(
      Gravity.PARTLY_MEASURED, "ask for another layer; this one is not found in such scans"),
  LOW_COVERAGE(Gravity.NOTE, "some sectors were refused; repeat the scan to measure them"),
  FRAMES_UNREADABLE(Gravity.NOTE, "some frames could not be decoded and were left out"),
  NO_BASELINE(Gravity.NOTE, "nothing to compare with: the eye has one visit"),
  BASELINE_UNKNOWN(Gravity.NOT_MEASURED, "give a study UID that is in the folder, or 'first'"),
  NO_PATIENT(Gravity.NOT_MEASURED, "have the sender give Patient ID; no change is given without"),
  MAP_OF_MEASURED_SCAN(
      Gravity.NOTE, "nothing to do; the scan was measured afresh and the map was left out"),
  MAP_DOUBLED(Gravity.NOT_MEASURED, "measure this map in a folder and a run of its own"),
  MAP_NOT_COMPARED(
      Gravity.PARTLY_MEASURED,
      "give the scans themselves; change is not reckoned from maps made elsewhere"),
  VESSELS_NOT_MATCHED(
      Gravity.NOTE, "look whether both scans show one place; turn and motion are not corrected"),
  LANDMARKS_APART(
      Gravity.NOTE, "look which visit's fovea was found right; the two visits' own sectors differ"),
  STATED_REGISTRATION_DOUBTED(
      Gravity.NOTE, "look at the Spatial Registration object; the scans themselves disagree"),
  BASELINE_CHOSEN(
      Gravity.NOTE,
      "change.csv names the scan compared with; remove the others if another one is meant"),
  PATIENT_ID_AMBIGUOUS(
      Gravity.NOTE,
      "check whether these are one patient; each issuer's scans were followed apart, and the tables"
          + " give them the same patient_id"),
  VISIT_ORDER_UNKNOWN(
      Gravity.NOT_MEASURED,
      "name the baseline by its study UID, or have the sender give the dates"),
  REPEATS_TOO_FEW(
      Gravity.NOTE,
      "give more pairs of repeated scans; the noise was taken from the next source that knows it"),
  NOT_COMPARABLE(Gravity.NOT_MEASURED, "look at both scans; no change is given between them"),
  SERIES_EXCLUDED(
      Gravity.PARTLY_MEASURED,
      "the scan is in the other tables; its visit is missing in the series"),
  SERIES_SCAN_CHOSEN(
      Gravity.NOTE, "remove the others if another scan is to stand for the visit in the series"),
  TREATMENT_EXCLUDED(
      Gravity.PARTLY_MEASURED, "correct the row of the treatments file and run again"),
  EYES_NOT_COMPARED(
      Gravity.PARTLY_MEASURED, "look at both scans; the eyes are not laid on one another"),
  NO_OTHER_EYE(Gravity.NOTE, "nothing to compare with: one eye was scanned at that visit"),
  FAILED(
      Gravity.NOT_MEASURED,
      "report this with the message; the object was left out, the others were measured"),
  REGISTRATION_IGNORED(
      Gravity.NOTE,
      "have the object's sender correct it, or leave it; visits are aligned as if it was not there"),
  REGISTRATION_CONTRADICTION(
      Gravity.NOTE, "find out which registration holds and remove the other; neither was used"),
  REGISTRATION_NOT_WRITTEN(
      Gravity.NOTE, "use the tables; no registration object was written for these two scans"),
  OBJECT_REFUSED(Gravity.NOTE, "use the tables and pictures; this DICOM object was not written"),
  FHIR_REFUSED(Gravity.NOTE, "use the tables; no FHIR file was written for this eye and visit"),
  NOT_WRITTEN(Gravity.NOT_MEASURED, "check the output folder's free space and rights, run again"),
  DEFINITIONS_DIFFER(
      Gravity.NOT_MEASURED, "compare only thicknesses between the same two boundaries"),
  NO_REPEAT(
      Gravity.NOTE, "nothing to do, or add the eye's other scans; it was measured all the same"),
  REPEAT_IDENTICAL(
      Gravity.NOTE, "remove the copy; a picture given twice says nothing about repeating the scan"),
  REPEAT_UNDATED(
      Gravity.PARTLY_MEASURED,
      "have the sender give Acquisition DateTime; repeats are told by their day"),
  REPEATS_POOLED(
      Gravity.NOTE, "give the scans of one pattern alone for the repeatability of that pattern"),
  TOO_FEW_REPEATS(
      Gravity.NOT_MEASURED, "give two scans or more of one day of each of at least two eyes"),
  DATE_UNKNOWN(
      Gravity.NOTE, "have the sender give Acquisition DateTime; the order of visits is unknown"),

  // The optic nerve.
  NOT_A_NERVE_SCAN(
      Gravity.NOT_MEASURED,
      "give circle scans round the disc, or volumes over the disc or the macula"),
  NERVE_VOLUME(
      Gravity.NOTE,
      "nothing to do; its numbers are in nerve.csv, a grid of the macula needs another"),
  GANGLION_CELLS_ONLY(
      Gravity.NOTE, "add a scan of the disc for the nerve fibre layer; ganglion cells only"),
  CIRCLE_TRUNCATED(
      Gravity.NOT_MEASURED, "repeat the scan or export it whole; a profile needs a closed circle"),
  CIRCLE_OFF_DISC(
      Gravity.PARTLY_MEASURED,
      "repeat the scan centred on the disc; its profile is no measure of the nerve, so that it has no"
          + " values and is not compared with other visits"),
  CIRCLE_SHIFTED(
      Gravity.NOTE, "look whether the circle is centred on the disc; quadrants suffer first"),
  CIRCLES_APART(
      Gravity.NOTE,
      "look whether either circle is centred on the disc; quadrants of one that is not are off, and"
          + " their percentiles with them"),
  CIRCLE_NOT_CHECKED(
      Gravity.NOTE,
      "look whether the circle is centred on the disc, or add a volume over the disc in the same"
          + " frame of reference"),
  DIAMETER_UNUSUAL(
      Gravity.NOTE, "compare only with circles of this diameter; normal limits are not given"),
  OPENING_NOT_SEEN(
      Gravity.PARTLY_MEASURED,
      "look at the scan, or repeat it over the whole disc; no rim width, and no circle without the"
          + " opening's centre"),
  ATROPHY_BEYOND_CIRCLE(
      Gravity.NOTE, "look at these arcs: the outer bands are missing there, so trust them less"),
  LAYER_NOT_RESOLVED(
      Gravity.NOTE,
      "look at these places: the layer's two lines lie so near each other that the number may be a"
          + " fault of the lines"),
  NOT_TURNED_TO_FOVEA(
      Gravity.NOTE,
      "add a scan that shows the fovea in the same frame of reference; angles are counted from the"
          + " horizontal"),
  NO_NORMAL_LIMITS(
      Gravity.NOTE, "nothing to do, or give a reference table that covers this scan (--reference)");

  /** How much of an object a finding costs. */
  public enum Gravity {
    /** Worth knowing; nothing was left out. */
    NOTE,
    /** Not ours to measure; nothing expected is missing. */
    SKIPPED,
    /** Some of what was asked for could not be given. */
    PARTLY_MEASURED,
    /** The object gave no number. */
    NOT_MEASURED
  }

  private final Gravity gravity;
  private final String advice;

  FindingKind(Gravity gravity, String advice) {
    this.gravity = gravity;
    this.advice = advice;
  }

  /** Returns how much of the object the finding costs. */
  public Gravity gravity() {
    return gravity;
  }

  /** Returns what the user can do about it, in plain words. */
  public String advice() {
    return advice;
  }
}
