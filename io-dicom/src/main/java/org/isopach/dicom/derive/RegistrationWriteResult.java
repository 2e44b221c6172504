package org.isopach.dicom.derive;

import java.nio.file.Path;

/** What became of writing a registration. */
public sealed interface RegistrationWriteResult {
  /**
   * The object stands in the file.
   *
   * @param file the file
   * @param sopInstanceUid the object's SOP Instance UID
   */
  record Written(Path file, String sopInstanceUid) implements RegistrationWriteResult {}

  /**
   * Nothing was written.
   *
   * @param reason the sort of reason
   * @param detail what exactly, in words
   */
  record Refused(Reason reason, String detail) implements RegistrationWriteResult {}

  /** Why a registration cannot be a standard object. */
  enum Reason {
    /** The scans are not of one eye of one patient, or do not say so. */
    NOT_ONE_EYE,
    /** A scan has no place, or the coordinate system it is placed in has no name. */
    FRAME_WITHOUT_NAME,
    /** Both scans count in one coordinate system: the standard maps between two. */
    SAME_FRAME,
    /** The fundus image a scan is placed on, its scale or its series is not known. */
    IMAGE_UNKNOWN,
    /** A source object lacks a value that the registration must have. */
    SOURCE_INCOMPLETE,
    /** The scale is not believed. */
    OUT_OF_RANGE
  }
}
