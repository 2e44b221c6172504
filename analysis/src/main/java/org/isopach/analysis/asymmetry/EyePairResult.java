package org.isopach.analysis.asymmetry;

import java.util.Objects;

/** What comes of laying two eyes on one another. */
public sealed interface EyePairResult {
  /**
   * Two eyes that could be compared.
   *
   * @param map right minus left, cell by cell
   * @param table the same, sector by sector
   */
  record Compared(AsymmetryMap map, AsymmetryTable table) implements EyePairResult {
    public Compared {
      Objects.requireNonNull(map, "map");
      Objects.requireNonNull(table, "table");
    }
  }

  /**
   * Two eyes that must not be compared.
   *
   * @param detail why, in plain words
   */
  record Refused(String detail) implements EyePairResult {
    public Refused {
      Objects.requireNonNull(detail, "detail");
    }
  }
}
