package org.isopach.dicom;

/** The kinds of object that say what somebody found in a scan. */
public enum DerivedKind {
  GRID_REPORT("grid-report", "macular grid report"),
  THICKNESS_MAP("thickness-map", "thickness map"),
  PARAMETRIC_MAP("parametric-map", "parametric map"),
  HEIGHT_MAP("height-map", "height map segmentation"),
  SEGMENTATION("segmentation", "segmentation"),
  EN_FACE("en-face", "en face image"),
  DOCUMENT("document", "encapsulated document");

  private final String code;
  private final String words;

  DerivedKind(String code, String words) {
    this.code = code;
    this.words = words;
  }

  /** Returns whether it has numbers that could be set beside ours; pictures and pages have none. */
  public boolean comparable() {
    return this != EN_FACE && this != DOCUMENT;
  }

  /** Returns the name used in tables. */
  public String code() {
    return code;
  }

  /** Returns the name used in sentences. */
  public String words() {
    return words;
  }
}
