package org.isopach.cli.page;

import java.util.List;
import java.util.Locale;

/** Builds a page of headings, paragraphs and tables. */
public final class Markdown {
  private final StringBuilder text = new StringBuilder();

  /** Adds a heading; level 1 is the page's own. */
  public Markdown heading(int level, String words) {
    return paragraph("#".repeat(level) + " " + words);
  }

  /** Adds a paragraph. */
  public Markdown paragraph(String words) {
    if (text.length() > 0) {
      text.append('\n');
    }
    text.append(words).append('\n');
    return this;
  }

  /** Adds a table; each row has as many cells as the header. */
  public Markdown table(List<String> header, List<List<String>> rows) {
    text.append('\n');
    row(header);
    row(header.stream().map(cell -> "---").toList());
    for (List<String> cells : rows) {
      if (cells.size() != header.size()) {
        throw new IllegalArgumentException("a row does not fit " + header + ": " + cells);
      }
      row(cells);
    }
    return this;
  }

  private void row(List<String> cells) {
    text.append("| ").append(String.join(" | ", cells)).append(" |\n");
  }

  /** Returns a number with so many decimals, or a dash for none. */
  public static String number(double value, int decimals) {
    if (Double.isNaN(value)) {
      return "–";
    }
    if (Double.isInfinite(value)) {
      return value > 0 ? "∞" : "-∞";
    }
    String shown = String.format(Locale.ROOT, "%." + decimals + "f", value);
    // A value that rounds to zero has no sign to show.
    return shown.matches("-0\\.?0*") ? shown.substring(1) : shown;
  }

  /** Returns a share of 0 to 1 in percent. */
  public static String percent(double share, int decimals) {
    return Double.isNaN(share) ? "–" : number(100 * share, decimals) + " %";
  }

  @Override
  public String toString() {
    return text.toString();
  }
}
