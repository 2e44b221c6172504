package org.isopach.analysis.normal;

import java.util.Objects;

/**
 * Where a row comes from.
 *
 * @param referenceId name of the group in tables and on the command line
 * @param population whose eyes, in words
 * @param source where it is published, never empty
 * @param status whether it was read there
 * @param note what else a reader must know; may be empty
 */
public record ReferenceSource(
    String referenceId, String population, String source, Status status, String note) {
  /** How the values came into the table. */
  public enum Status {
    /** Read in the source or its abstract. */
    READ("read"),
    /** From memory: a hint, not yet checked. */
    FROM_MEMORY("from-memory"),
    /** Computed from values read in the source, as the note says. */
    COMPUTED("computed");

    private final String code;

    Status(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }

  public ReferenceSource {
    Objects.requireNonNull(population, "population");
    Objects.requireNonNull(status, "status");
    Objects.requireNonNull(note, "note");
    if (referenceId.isBlank() || source.isBlank()) {
      throw new IllegalArgumentException("a reference needs a name and a source");
    }
  }
}
