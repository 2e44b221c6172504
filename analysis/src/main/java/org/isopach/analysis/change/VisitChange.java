package org.isopach.analysis.change;

import java.util.Objects;

/** What comes of comparing two visits: a change, or why the visits must not be compared. */
public sealed interface VisitChange {
  /**
   * Two visits that could be compared.
   *
   * @param map change cell by cell
   * @param table change sector by sector
   */
  record Compared(DifferenceMap map, ChangeTable table) implements VisitChange {
    public Compared {
      Objects.requireNonNull(map, "map");
      Objects.requireNonNull(table, "table");
    }
  }

  /**
   * Two visits between which no change is given.
   *
   * @param reason the kind of obstacle
   * @param detail the particulars in plain words
   */
  record Refused(Reason reason, String detail) implements VisitChange {
    public Refused {
      Objects.requireNonNull(reason, "reason");
      Objects.requireNonNull(detail, "detail");
    }
  }

  /** What can forbid comparing two visits. */
  enum Reason {
    /** Both are the same object. */
    SAME_OBJECT("same-object"),
    /** The objects name different patients. */
    DIFFERENT_PATIENT("different-patient"),
    /** An object names no patient. */
    UNKNOWN_PATIENT("unknown-patient"),
    /** One is of the right eye, the other of the left. */
    DIFFERENT_LATERALITY("different-laterality"),
    /** The thicknesses lie between different boundaries. */
    DIFFERENT_LAYER("different-layer"),
    /** The micrometres rest on different refractive indexes, or on one stated and one not. */
    DIFFERENT_REFRACTIVE_INDEX("different-refractive-index"),
    /** The maps lie on different lattices. */
    DIFFERENT_LATTICE("different-lattice"),
    /** One looks like the mirror image of the other, as scans of two eyes do. */
    LOOKS_MIRRORED("looks-mirrored"),
    /** No place has a value at both visits. */
    NO_COMMON_PLACE("no-common-place");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }
}
