package org.isopach.report.pdf;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.color.PDDeviceRGB;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.isopach.report.picture.PackedPixels;

/**
 * Pages of A4 to draw on. Places are points from the left and from the top of the page; the place
 * of text is its base line.
 */
final class PdfCanvas {
  static final double WIDTH = PDRectangle.A4.getWidth();
  static final double HEIGHT = PDRectangle.A4.getHeight();

  private static final int BITS_PER_CHANNEL = 8;
  private static final COSName ARTIFACT = COSName.getPDFName("Artifact");

  private final PDDocument document;
  private final PdfFonts fonts;
  private final PdfTags tags = new PdfTags();
  private PDPage page;
  private PDPageContentStream stream;

  PdfCanvas(PDDocument document) throws IOException {
    this.document = document;
    this.fonts = new PdfFonts(document);
  }

  PdfTags tags() {
    return tags;
  }

  /** Starts a new page. */
  void nextPage() throws IOException {
    finishPage();
    page = new PDPage(PDRectangle.A4);
    document.addPage(page);
    tags.page(page);
    stream = new PDPageContentStream(document, page);
  }

  /** Ends the last page. */
  void finishPage() throws IOException {
    if (stream != null) {
      stream.close();
    }
  }

  /** Starts to draw over a page that is finished already. */
  void over(int index) throws IOException {
    finishPage();
    page = document.getPage(index);
    stream =
        new PDPageContentStream(document, page, PDPageContentStream.AppendMode.APPEND, true, true);
  }

  double width(Style style, String text) throws IOException {
    return fonts.width(style, fonts.drawable(text));
  }

  /** Writes a line of text that is an element of the structure, from a left end. */
  void text(String role, Style style, double x, double y, String text) throws IOException {
    stream.beginMarkedContent(COSName.getPDFName(role), tags.leaf(role, "", page));
    write(style, x, y, fonts.drawable(text));
    stream.endMarkedContent();
  }

  /** Writes a line of text, to a right end. */
  void textTo(String role, Style style, double right, double y, String text) throws IOException {
    text(role, style, right - width(style, text), y, text);
  }

  /** Writes lines as one paragraph and returns the base line below the last. */
  double paragraph(String role, Style style, double x, double y, List<String> lines)
      throws IOException {
    stream.beginMarkedContent(COSName.getPDFName(role), tags.leaf(role, "", page));
    double at = y;
    for (String line : lines) {
      write(style, x, at, fonts.drawable(line));
      at += style.leading();
    }
    stream.endMarkedContent();
    return at;
  }

  /** Writes text that belongs to the page, not to the content. */
  void furniture(Style style, double x, double y, String text) throws IOException {
    stream.beginMarkedContent(ARTIFACT);
    write(style, x, y, fonts.drawable(text));
    stream.endMarkedContent();
  }

  void rule(double x0, double x1, double y, double weight) throws IOException {
    stream.beginMarkedContent(ARTIFACT);
    stream.setStrokingColor(new Color(Style.RULE));
    stream.setLineWidth((float) weight);
    stream.moveTo((float) x0, (float) (HEIGHT - y));
    stream.lineTo((float) x1, (float) (HEIGHT - y));
    stream.stroke();
    stream.endMarkedContent();
  }

  /** Fills an upright rectangle, from its upper left corner. */
  void fill(double x, double y, double width, double height, int colour) throws IOException {
    stream.beginMarkedContent(ARTIFACT);
    stream.setNonStrokingColor(new Color(colour));
    stream.addRect((float) x, (float) (HEIGHT - y - height), (float) width, (float) height);
    stream.fill();
    stream.endMarkedContent();
  }

  /** Draws a picture, from its upper left corner. */
  void picture(BufferedImage image, double x, double y, double side, String alternative)
      throws IOException {
    PDImageXObject embedded =
        new PDImageXObject(
            document,
            new ByteArrayInputStream(PackedPixels.of(image)),
            COSName.FLATE_DECODE,
            image.getWidth(),
            image.getHeight(),
            BITS_PER_CHANNEL,
            PDDeviceRGB.INSTANCE);
    stream.beginMarkedContent(COSName.getPDFName("Figure"), tags.leaf("Figure", alternative, page));
    stream.drawImage(embedded, (float) x, (float) (HEIGHT - y - side), (float) side, (float) side);
    stream.endMarkedContent();
  }

  /** Returns a text broken into lines of at most a width; a longer word is broken anywhere. */
  List<String> wrapped(Style style, String text, double width) throws IOException {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : List.of(fonts.drawable(text).split(" ", -1))) {
      String longer = line.isEmpty() ? word : line + " " + word;
      if (fonts.width(style, longer) <= width) {
        line.setLength(0);
        line.append(longer);
        continue;
      }
      if (!line.isEmpty()) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(broken(style, word, width, lines));
    }
    lines.add(line.toString());
    return lines;
  }

  private String broken(Style style, String word, double width, List<String> lines)
      throws IOException {
    String rest = word;
    while (fonts.width(style, rest) > width) {
      int end = rest.length() - 1;
      while (end > 1 && fonts.width(style, rest.substring(0, end)) > width) {
        end--;
      }
      lines.add(rest.substring(0, end));
      rest = rest.substring(end);
    }
    return rest;
  }

  private void write(Style style, double x, double y, String text) throws IOException {
    stream.beginText();
    stream.setNonStrokingColor(new Color(style.colour()));
    stream.setFont(fonts.of(style), style.size());
    stream.newLineAtOffset((float) x, (float) (HEIGHT - y));
    stream.showText(text);
    stream.endText();
  }
}
