package org.isopach.report.pdf;

import java.io.IOException;
import java.util.List;

/** Sets blocks below one another and turns the page when one does not fit. */
final class PdfFlow {
  static final double LEFT = 42;
  static final double RIGHT = PdfCanvas.WIDTH - 42;
  static final double WIDTH = RIGHT - LEFT;

  private static final double TOP = 62;
  private static final double BOTTOM = PdfCanvas.HEIGHT - 70;

  private final PdfCanvas canvas;
  private double y;
  private int pages;

  PdfFlow(PdfCanvas canvas) throws IOException {
    this.canvas = canvas;
    turn();
  }

  PdfCanvas canvas() {
    return canvas;
  }

  int pages() {
    return pages;
  }

  /** Returns where the next block begins, points from the top. */
  double y() {
    return y;
  }

  /** Moves on. */
  void skip(double points) {
    y += points;
  }

  /** Turns the page unless there is room for so much. */
  void need(double points) throws IOException {
    if (y + points > BOTTOM) {
      turn();
    }
  }

  private void turn() throws IOException {
    canvas.nextPage();
    pages++;
    y = TOP;
  }

  /** Sets a heading with room for some of what follows it. */
  void heading(String text, double following) throws IOException {
    heading(text, "", following);
  }

  /** Sets a heading and, smaller, what it means. */
  void heading(String text, String words, double following) throws IOException {
    need(34 + following);
    skip(16);
    canvas.text("H2", Style.HEADING, LEFT, y, text);
    if (!words.isEmpty()) {
      double x = LEFT + canvas.width(Style.HEADING, text) + 8;
      canvas.text("P", Style.TEXT, x, y, words);
    }
    canvas.rule(LEFT, RIGHT, y + 5, 0.8);
    skip(18);
  }

  /** Sets a paragraph over the whole width. */
  void paragraph(Style style, String text) throws IOException {
    paragraph(style, LEFT, WIDTH, text);
  }

  /** Sets a paragraph over a part of the width. */
  void paragraph(Style style, double x, double width, String text) throws IOException {
    List<String> lines = canvas.wrapped(style, text, width);
    need(lines.size() * style.leading());
    y = canvas.paragraph("P", style, x, y, lines) + 1.5;
  }
}
