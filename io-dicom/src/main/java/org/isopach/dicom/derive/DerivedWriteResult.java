package org.isopach.dicom.derive;

import java.nio.file.Path;

/** What became of writing a derived object. */
public sealed interface DerivedWriteResult {
  /**
   * The object stands in the file.
   *
   * @param file the file
   * @param sopInstanceUid the object's SOP Instance UID
   */
  record Written(Path file, String sopInstanceUid) implements DerivedWriteResult {}

  /**
   * Nothing was written.
   *
   * @param reason the sort of reason
   * @param detail what exactly, in words
   */
  record Refused(Reason reason, String detail) implements DerivedWriteResult {}

  /** Why a result cannot be a standard object. */
  enum Reason {
    /** The standard has no code for what was measured. */
    WITHOUT_DEFINITION,
    /** There is nothing to be written. */
    NO_VALUES,
    /** The source object lacks a value that the derived one must have. */
    SOURCE_INCOMPLETE,
    /** Result, scan and header are not of one object and eye. */
    NOT_OF_THIS_SCAN,
    /** Too large for the object's attributes. */
    OUT_OF_RANGE
  }
}
