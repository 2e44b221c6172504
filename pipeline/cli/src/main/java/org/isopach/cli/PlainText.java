package org.isopach.cli;

import java.util.stream.Collectors;

/** Text from files, made fit for a terminal. */
final class PlainText {
  private PlainText() {}

  /** Returns a text with each control character as its code, so that it cannot steer a terminal. */
  static String of(String text) {
    return text.codePoints()
        .mapToObj(
            point ->
                Character.isISOControl(point)
                    ? String.format("\\u%04x", point)
                    : Character.toString(point))
        .collect(Collectors.joining());
  }
}
