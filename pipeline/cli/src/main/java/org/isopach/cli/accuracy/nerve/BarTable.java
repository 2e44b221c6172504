package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import org.isopach.cli.page.Markdown;

/** Figures beside their limits. */
final class BarTable {
  private static final List<String> HEADER = List.of("figure", "found", "bar", "met");

  private final List<List<String>> rows = new ArrayList<>();

  /** Adds a figure that must not exceed a limit; one without a value does not meet it. */
  BarTable atMost(String figure, double found, int decimals, String unit, double limit) {
    return row(
        figure,
        Markdown.number(found, decimals) + " " + unit,
        "≤ " + plain(limit) + " " + unit,
        found <= limit);
  }

  /** Adds the mean absolute error, and how many single errors keep the limit. */
  BarTable errors(String figure, Errors errors, int decimals, String unit, double limit) {
    String missing = errors.missing() == 0 ? "" : ", " + errors.missing() + " missing";
    return row(
        figure,
        Markdown.number(errors.meanAbsolute(), decimals)
            + " "
            + unit
            + " (bias "
            + Markdown.number(errors.bias(), decimals)
            + ", worst "
            + Markdown.number(errors.worst(), decimals)
            + "; within "
            + errors.withinWords(limit)
            + missing
            + ")",
        "≤ " + plain(limit) + " " + unit,
        errors.meanAbsolute() <= limit);
  }

  /** Adds a figure whose limit is said in words. */
  BarTable row(String figure, String found, String bar, boolean met) {
    rows.add(List.of(figure, found, bar, met ? "yes" : "**no**"));
    return this;
  }

  /** Adds a figure without a limit. */
  BarTable told(String figure, String found) {
    rows.add(List.of(figure, found, "–", "–"));
    return this;
  }

  void addTo(Markdown page) {
    page.table(HEADER, rows);
  }

  private static String plain(double limit) {
    return Markdown.number(limit, limit == Math.rint(limit) ? 0 : 1);
  }
}
