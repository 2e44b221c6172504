package org.isopach.report.pdf;

import java.io.IOException;
import java.io.InputStream;
import java.util.HashMap;
import java.util.Map;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/** The two fonts of a document, embedded as far as their letters are used. */
final class PdfFonts {
  private static final String MISSING = "?";

  private final PDFont plain;
  private final PDFont bold;
  private final Map<Integer, Boolean> drawable = new HashMap<>();

  PdfFonts(PDDocument document) throws IOException {
    plain = load(document, "DejaVuSans.ttf");
    bold = load(document, "DejaVuSans-Bold.ttf");
  }

  PDFont of(Style style) {
    return style.bold() ? bold : plain;
  }

  /** Returns a text's width in points. */
  double width(Style style, String text) throws IOException {
    return of(style).getStringWidth(text) / 1000.0 * style.size();
  }

  /** Returns a text in which every letter that a font lacks is a question mark. */
  String drawable(String text) {
    StringBuilder safe = new StringBuilder();
    text.codePoints()
        .forEach(
            code -> {
              if (drawable.computeIfAbsent(code, this::drawn)) {
                safe.appendCodePoint(code);
              } else {
                safe.append(MISSING);
              }
            });
    return safe.toString();
  }

  private boolean drawn(int code) {
    String letter = Character.toString(code);
    if (Character.isISOControl(code)) {
      return false;
    }
    try {
      plain.encode(letter);
      bold.encode(letter);
      return true;
    } catch (IOException | IllegalArgumentException e) {
      // The toolkit says so of letters that the font does not have.
      return false;
    }
  }

  private static PDFont load(PDDocument document, String name) throws IOException {
    try (InputStream in = PdfFonts.class.getResourceAsStream(name)) {
      return PDType0Font.load(document, in, true);
    }
  }
}
