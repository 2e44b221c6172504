package org.isopach.report.normal;

import java.io.IOException;
import java.util.List;
import java.util.stream.Collectors;

/** Says that a file is not a sound reference table: every fault that was found, with its place. */
public final class ReferenceTableException extends IOException {
  private static final long serialVersionUID = 1L;

  private final transient List<Fault> faults;

  /**
   * One fault.
   *
   * @param line number of its line in the file, from 1; with line breaks inside quotes, the last
   * @param column name of the column; empty for a row as a whole
   * @param what what is wrong, in plain words
   */
  public record Fault(long line, String column, String what) {
    @Override
    public String toString() {
      return "line " + line + (column.isEmpty() ? "" : ", column " + column) + ": " + what;
    }
  }

  ReferenceTableException(String file, List<Fault> faults) {
    super(
        file
            + " is not a sound reference table: "
            + faults.stream().map(Fault::toString).collect(Collectors.joining("; ")));
    this.faults = List.copyOf(faults);
  }

  /** Returns the faults in the order of the file. */
  public List<Fault> faults() {
    return faults;
  }
}
