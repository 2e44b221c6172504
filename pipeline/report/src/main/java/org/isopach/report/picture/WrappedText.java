package org.isopach.report.picture;

import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.util.ArrayList;
import java.util.List;

/** Sets text into a column of fixed width. */
final class WrappedText {
  private WrappedText() {}

  /**
   * Draws a text and returns the baseline for the next line.
   *
   * @param y baseline of the first line
   */
  static int draw(Graphics2D g, Font font, String text, int x, int y, int width) {
    g.setFont(font);
    int step = Math.round(font.getSize2D() * 1.32f);
    int baseline = y;
    for (String line : lines(g.getFontMetrics(), text, width)) {
      g.drawString(line, x, baseline);
      baseline += step;
    }
    return baseline;
  }

  /** Returns the text in lines that fit; a word longer than a line is cut where it must be. */
  static List<String> lines(FontMetrics metrics, String text, int width) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ", -1)) {
      String rest = word;
      if (!line.isEmpty() && metrics.stringWidth(line + " " + rest) > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      while (line.isEmpty() && metrics.stringWidth(rest) > width) {
        int fit = fitting(metrics, rest, width);
        lines.add(rest.substring(0, fit));
        rest = rest.substring(fit);
      }
      line.append(line.isEmpty() ? "" : " ").append(rest);
    }
    lines.add(line.toString());
    return lines;
  }

  private static int fitting(FontMetrics metrics, String word, int width) {
    int fit = 1;
    while (fit < word.length() && metrics.stringWidth(word.substring(0, fit + 1)) <= width) {
      fit++;
    }
    return fit;
  }
}
