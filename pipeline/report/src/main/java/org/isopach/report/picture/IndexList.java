package org.isopach.report.picture;

import java.util.Arrays;

/** Indices in the order they were added. */
final class IndexList {
  private int[] values = new int[64];
  private int size;

  void add(int index) {
    if (size == values.length) {
      values = Arrays.copyOf(values, 2 * size);
    }
    values[size++] = index;
  }

  int[] toArray() {
    return Arrays.copyOf(values, size);
  }

  void clear() {
    size = 0;
  }
}
