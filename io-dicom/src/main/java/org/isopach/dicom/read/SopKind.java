package org.isopach.dicom.read;

import java.util.Optional;

/** The kinds of object that are read, by SOP class (DICOM PS3.4, annex B.5). */
public enum SopKind {
  TOMOGRAPHY("1.2.840.10008.5.1.4.1.1.77.1.5.4"),
  PHOTOGRAPHY_8("1.2.840.10008.5.1.4.1.1.77.1.5.1"),
  PHOTOGRAPHY_16("1.2.840.10008.5.1.4.1.1.77.1.5.2"),
  THICKNESS_MAP("1.2.840.10008.5.1.4.1.1.81.1"),
  SPATIAL_REGISTRATION("1.2.840.10008.5.1.4.1.1.66.1");

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
    return this != SPATIAL_REGISTRATION;
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
