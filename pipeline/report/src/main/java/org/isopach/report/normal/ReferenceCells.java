package org.isopach.report.normal;

import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.csv.CSVRecord;
import org.isopach.report.normal.ReferenceTableException.Fault;

/** The cells of one row, read with a note of every fault; a cell with a fault reads as empty. */
final class ReferenceCells {
  private final CSVRecord row;
  private final long line;
  private final List<Fault> faults;

  ReferenceCells(CSVRecord row, long line, List<Fault> faults) {
    this.row = row;
    this.line = line;
    this.faults = faults;
  }

  void fault(String column, String what) {
    faults.add(new Fault(line, column, what));
  }

  String text(String column) {
    return row.get(column);
  }

  /** Returns the text and notes a fault when there is none. */
  String needed(String column) {
    String text = text(column);
    if (text.isEmpty()) {
      fault(column, "must not be empty");
    }
    return text;
  }

  /** Notes a fault when the cell is not empty. */
  void none(String column, String why) {
    if (!text(column).isEmpty()) {
      fault(column, "must be empty " + why + ", was '" + text(column) + "'");
    }
  }

  OptionalDouble number(String column) {
    String text = text(column);
    if (text.isEmpty()) {
      return OptionalDouble.empty();
    }
    // Double.parseDouble would also take 1d, 0x1p3, NaN and Infinity.
    if (!text.matches("[+-]?(\\d+(\\.\\d*)?|\\.\\d+)([eE][+-]?\\d{1,2})?")) {
      fault(column, "must be a number with a full stop, was '" + text + "'");
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(Double.parseDouble(text));
  }

  /** Returns a number above 0 or nothing. */
  OptionalDouble positive(String column) {
    OptionalDouble value = number(column);
    if (value.isPresent() && !(value.getAsDouble() > 0)) {
      fault(column, "must be above 0, was " + text(column));
      return OptionalDouble.empty();
    }
    return value;
  }

  /** Returns a whole number of at least {@code least} or nothing. */
  OptionalDouble whole(String column, int least) {
    OptionalDouble value = number(column);
    if (value.isPresent()
        && !(value.getAsDouble() >= least
            && value.getAsDouble() <= Integer.MAX_VALUE
            && value.getAsDouble() == Math.rint(value.getAsDouble()))) {
      fault(column, "must be a whole number of at least " + least + ", was " + text(column));
      return OptionalDouble.empty();
    }
    return value;
  }
}
