package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;

/**
 * Data and figures under {@code src/test/resources}; {@code reference.py} tells how they were made.
 */
final class Reference {
  /** Relative; what issue and file ask for. */
  static final double TOLERANCE = 1e-9;

  private Reference() {}

  /** Returns a data set, row by row. */
  static double[][] rows(String file) {
    return lines(file).stream()
        .skip(1)
        .map(line -> numbers(line.split(",", -1), 0))
        .toArray(double[][]::new);
  }

  static double[] column(double[][] rows, int index) {
    return Arrays.stream(rows).mapToDouble(row -> row[index]).toArray();
  }

  /** Returns the recorded figures of a key. */
  static double[] figures(String key) {
    return lines("reference.csv").stream()
        .map(line -> line.split(",", -1))
        .filter(cells -> cells[0].equals(key))
        .findFirst()
        .map(cells -> numbers(cells, 1))
        .orElseThrow();
  }

  static void check(String key, double... found) {
    double[] expected = figures(key);
    assertEquals(expected.length, found.length, key);
    for (int i = 0; i < expected.length; i++) {
      close(expected[i], found[i], TOLERANCE);
    }
  }

  static void close(double expected, double found, double relative) {
    assertEquals(expected, found, Math.abs(expected) * relative);
  }

  private static double[] numbers(String[] cells, int from) {
    return Arrays.stream(cells, from, cells.length).mapToDouble(Double::parseDouble).toArray();
  }

  private static List<String> lines(String file) {
    try (InputStream in = Reference.class.getResourceAsStream(file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .filter(line -> !line.startsWith("#"))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
