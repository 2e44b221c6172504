package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.isopach.cli.page.Markdown;

/** Figures beside their limits. */
final class BarTable {
  private static final List<String> HEADER = List.of("figure", "found", "bar", "met");

  private static final int WORST = 5;

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
    String bias = "bias " + Markdown.number(errors.bias(), decimals) + ", ";
    return errors(figure, errors, bias, decimals, unit, limit);
  }

  /** Adds the mean of sizes of errors, which have no sign. */
  BarTable sizes(String figure, Errors sizes, int decimals, String unit, double limit) {
    return errors(figure, sizes, "", decimals, unit, limit);
  }

  private BarTable errors(
      String figure, Errors errors, String bias, int decimals, String unit, double limit) {
    String missing = errors.missing() == 0 ? "" : ", " + errors.missing() + " missing";
    String found =
        Markdown.number(errors.meanAbsolute(), decimals)
            + " "
            + unit
            + " "
            + errors.interval().text(decimals)
            + " (N "
            + errors.count()
            + ", "
            + bias
            + "SD "
            + Markdown.number(errors.sd(), decimals)
            + ", worst "
            + Markdown.number(errors.worst(), decimals)
            + "; within "
            + errors.withinWords(limit)
            + missing
            + ")";
    return row(figure, found, "≤ " + plain(limit) + " " + unit, errors.meanAbsolute() <= limit);
  }

  /** Adds which eyes have the greatest errors, a missing one counted as the greatest. */
  BarTable worst(String figure, List<Long> seeds, List<Double> sizes) {
    String eyes =
        IntStream.range(0, sizes.size())
            .boxed()
            .sorted(Comparator.comparing((Integer i) -> sizes.get(i)).reversed())
            .limit(WORST)
            .map(i -> seeds.get(i) + " (" + Markdown.number(sizes.get(i), 1) + ")")
            .collect(Collectors.joining(", "));
    return told(figure, eyes);
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
