package org.isopach.cli;

import java.util.stream.Collectors;

/** Text from files, made fit for a terminal. */
final class PlainText {
  private PlainText() {}

  /**
   * Returns a text with each control character as its code, so that it cannot steer a terminal, and
   * the signs of micro and square, which not every terminal shows, as letters.
   */
  static String of(String text) {
    return text.replace("µm", "um")
        .replace("mm²", "mm2")
        .codePoints()
        .mapToObj(
            point ->
                Character.isISOControl(point)
                    ? String.format("\\u%04x", point)
                    : Character.toString(point))
        .collect(Collectors.joining());
  }
}
