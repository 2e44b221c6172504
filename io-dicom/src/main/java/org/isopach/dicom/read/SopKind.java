package org.isopach.dicom.read;

import java.util.Optional;
import org.isopach.dicom.DerivedKind;

/** The kinds of object that are read, by SOP class (DICOM PS3.4, annex B.5). */
public enum SopKind {
  TOMOGRAPHY("1.2.840.10008.5.1.4.1.1.77.1.5.4"),
  PHOTOGRAPHY_8("1.2.840.10008.5.1.4.1.1.77.1.5.1"),
  PHOTOGRAPHY_16("1.2.840.10008.5.1.4.1.1.77.1.5.2"),
  THICKNESS_MAP("1.2.840.10008.5.1.4.1.1.81.1"),
  SPATIAL_REGISTRATION("1.2.840.10008.5.1.4.1.1.66.1"),
  MACULAR_GRID_REPORT("1.2.840.10008.5.1.4.1.1.79.1"),
  HEIGHT_MAP("1.2.840.10008.5.1.4.1.1.66.8"),
  SEGMENTATION("1.2.840.10008.5.1.4.1.1.66.4"),
  LABEL_MAP("1.2.840.10008.5.1.4.1.1.66.7"),
  PARAMETRIC_MAP("1.2.840.10008.5.1.4.1.1.30"),
  EN_FACE("1.2.840.10008.5.1.4.1.1.77.1.5.7"),
  ENCAPSULATED_PDF("1.2.840.10008.5.1.4.1.1.104.1");

  private final String uid;

  SopKind(String uid) {
    this.uid = uid;
  }

  /** Returns the SOP class UID. */
  public String uid() {
    return uid;
  }

  /** Returns whether the object is a fundus image that frames can be placed on. */
  public boolean localizer() {
    return this == PHOTOGRAPHY_8 || this == PHOTOGRAPHY_16;
  }

  /** Returns whether objects of this kind have pixel data. */
  public boolean pictured() {
    return this != SPATIAL_REGISTRATION && this != MACULAR_GRID_REPORT && this != ENCAPSULATED_PDF;
  }

  /** Returns what was found in a scan, when objects of this kind say such a thing. */
  public Optional<DerivedKind> derived() {
    return switch (this) {
      case THICKNESS_MAP -> Optional.of(DerivedKind.THICKNESS_MAP);
      case MACULAR_GRID_REPORT -> Optional.of(DerivedKind.GRID_REPORT);
      case HEIGHT_MAP -> Optional.of(DerivedKind.HEIGHT_MAP);
      case SEGMENTATION, LABEL_MAP -> Optional.of(DerivedKind.SEGMENTATION);
      case PARAMETRIC_MAP -> Optional.of(DerivedKind.PARAMETRIC_MAP);
      case EN_FACE -> Optional.of(DerivedKind.EN_FACE);
      case ENCAPSULATED_PDF -> Optional.of(DerivedKind.DOCUMENT);
      case TOMOGRAPHY, PHOTOGRAPHY_8, PHOTOGRAPHY_16, SPATIAL_REGISTRATION -> Optional.empty();
    };
  }

  /** Returns the kind of a SOP class, or empty when such objects are not read. */
  public static Optional<SopKind> ofUid(String uid) {
    for (SopKind kind : values()) {
      if (kind.uid.equals(uid)) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }
}
