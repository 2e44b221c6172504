package org.isopach.dicom.read;

import java.util.Collections;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.dicom.data.Code;

/**
 * A picture of a layer or slab as the examiner sees the fundus, as its object holds it: grey values
 * in rows from the top, of no unit. Immutable.
 */
public final class EnFaceImage {
  private final Code type;
  private final Set<String> sources;
  private final double rowMm;
  private final double columnMm;
  private final int columns;
  private final int[] greys;

  /**
   * Makes an image.
   *
   * @param type what is shown, CID 4271
   * @param sources SOP Instance UIDs of the tomographies it was made from
   * @param rowMm distance of the centres of two rows, mm
   * @param columnMm distance of the centres of two columns, mm
   * @param columns pixels in a row
   * @param greys row after row; taken over
   */
  EnFaceImage(
      Code type, Set<String> sources, double rowMm, double columnMm, int columns, int[] greys) {
    this.type = Objects.requireNonNull(type, "type");
    this.sources = Collections.unmodifiableSortedSet(new TreeSet<>(sources));
    this.rowMm = rowMm;
    this.columnMm = columnMm;
    this.columns = columns;
    this.greys = greys;
  }

  /** Returns what is shown, CID 4271. */
  public Code type() {
    return type;
  }

  /** Returns the SOP Instance UIDs of the tomographies it was made from. */
  public Set<String> sources() {
    return sources;
  }

  /** Returns the distance of the centres of two rows, mm. */
  public double rowMm() {
    return rowMm;
  }

  /** Returns the distance of the centres of two columns, mm. */
  public double columnMm() {
    return columnMm;
  }

  /** Returns the number of rows. */
  public int rows() {
    return greys.length / columns;
  }

  /** Returns the number of columns. */
  public int columns() {
    return columns;
  }

  /** Returns the stored value of a pixel, both counted from 0 at the top left. */
  public int grey(int row, int column) {
    Objects.checkIndex(column, columns);
    return greys[row * columns + column];
  }
}
