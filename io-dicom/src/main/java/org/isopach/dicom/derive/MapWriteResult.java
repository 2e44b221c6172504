package org.isopach.dicom.derive;

import java.nio.file.Path;

/** What became of writing a map. */
public sealed interface MapWriteResult {
  /**
   * The object stands in the file.
   *
   * @param file the file
   * @param sopInstanceUid the object's SOP Instance UID
   */
  record Written(Path file, String sopInstanceUid) implements MapWriteResult {}

  /**
   * Nothing was written.
   *
   * @param reason the sort of reason
   * @param detail what exactly, in words
   */
  record Refused(Reason reason, String detail) implements MapWriteResult {}

  /** Why a map cannot be a standard object. */
  enum Reason {
    /** The standard has no thickness definition between these two boundaries. */
    LAYER_WITHOUT_DEFINITION,
    /** The source object lacks a value that the map object must have. */
    SOURCE_INCOMPLETE,
    /** Map and scan are not of the same object or eye. */
    NOT_OF_THIS_SCAN,
    /** A thickness is below 0 or above what can be stored. */
    OUT_OF_RANGE,
    /** No cell has a value. */
    NO_VALUES
  }
}
