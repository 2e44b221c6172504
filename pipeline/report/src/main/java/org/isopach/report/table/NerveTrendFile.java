package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.nerve.NerveTrend;
import org.isopach.analysis.nerve.TrendPower;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.analysis.stat.TheilSen;

/**
 * {@code nerve-trend.csv}: how every value of the nerve runs over the visits, one row each.
 *
 * <p>Slopes are in µm per year: raw, robust, and less what age explains in healthy eyes where that
 * is published. {@code power} is the chance that these visits show a slope of −1 µm per year,
 * {@code least_slope} the least one they show in 80 % of cases, {@code needed_visits} how many
 * visits as far apart it takes for −1 µm per year. {@code verdict} allows for the number of places
 * that are asked together. {@code words} says it in a sentence.
 */
public final class NerveTrendFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              NerveSeriesFile.KEY_COLUMNS.stream(),
              Stream.of(
                  "visits",
                  "span_years",
                  "slope_um_per_year",
                  "slope_low_um_per_year",
                  "slope_high_um_per_year",
                  "slope_p",
                  "residual_sd_um",
                  "robust_slope_um_per_year",
                  "robust_low_um_per_year",
                  "robust_high_um_per_year",
                  "age_slope_um_per_year",
                  "slope_less_age_um_per_year",
                  "slope_less_age_low_um_per_year",
                  "slope_less_age_high_um_per_year",
                  "age_population",
                  "age_source",
                  "age_reason",
                  "power",
                  "least_slope_um_per_year",
                  "needed_visits",
                  "slope_p_adjusted",
                  "verdict",
                  "words"))
          .toList();

  private NerveTrendFile() {}

  /** Writes the courses that have a trend in the order given; returns the SHA-256 digest. */
  public static String write(Path target, List<NerveCourse> courses) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(courses));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(List<NerveCourse> courses) {
    return courses.stream()
        .filter(course -> course.trend().isPresent())
        .map(course -> row(course, course.trend().get()))
        .toList();
  }

  private static List<String> row(NerveCourse course, NerveTrend trend) {
    List<String> cells = NerveSeriesFile.key(course);
    cells.add(Integer.toString(trend.visits()));
    cells.add(TableNumber.fixed(trend.spanYears(), 3));
    Optional<ConfidenceInterval> interval = trend.line().map(LinearTrend::slopeInterval);
    cells.add(number(trend.line().map(LinearTrend::slope)));
    cells.add(number(interval.map(ConfidenceInterval::lower)));
    cells.add(number(interval.map(ConfidenceInterval::upper)));
    cells.add(
        trend
            .line()
            .map(LinearTrend::slopeP)
            .filter(p -> !p.isNaN())
            .map(p -> TableNumber.fixed(p, 6))
            .orElse(""));
    cells.add(number(trend.line().map(LinearTrend::residualSd)));
    cells.addAll(robust(trend));
    cells.addAll(ageing(trend));
    cells.addAll(power(trend));
    cells.add(
        trend.pAdjusted().isPresent() ? TableNumber.fixed(trend.pAdjusted().getAsDouble(), 6) : "");
    cells.add(trend.verdict().code());
    cells.add(course.words());
    return cells;
  }

  private static List<String> robust(NerveTrend trend) {
    Optional<ConfidenceInterval> interval = trend.robust().flatMap(TheilSen::slopeInterval);
    return List.of(
        number(trend.robust().map(TheilSen::slope)),
        number(interval.map(ConfidenceInterval::lower)),
        number(interval.map(ConfidenceInterval::upper)));
  }

  private static List<String> ageing(NerveTrend trend) {
    Optional<ConfidenceInterval> less = trend.intervalLessAgeing();
    return List.of(
        trend.ageing().umPerYear().isPresent()
            ? TableNumber.fixed(trend.ageing().umPerYear().getAsDouble(), 3)
            : "",
        number(trend.slopeLessAgeing()),
        number(less.map(ConfidenceInterval::lower)),
        number(less.map(ConfidenceInterval::upper)),
        trend.ageing().population(),
        trend.ageing().source(),
        trend.ageing().refusal());
  }

  private static List<String> power(NerveTrend trend) {
    List<String> cells = new ArrayList<>();
    cells.add(trend.power().map(TrendPower::power).map(p -> TableNumber.fixed(p, 3)).orElse(""));
    cells.add(number(trend.power().map(TrendPower::leastSlopeUmPerYear)));
    cells.add(
        trend
            .power()
            .map(power -> power.needed().visits())
            .filter(visits -> visits.isPresent())
            .map(visits -> Integer.toString(visits.getAsInt()))
            .orElse(""));
    return cells;
  }

  private static String number(Optional<Double> value) {
    return value.filter(Double::isFinite).map(one -> TableNumber.fixed(one, 2)).orElse("");
  }

  private static String number(OptionalDouble value) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), 2) : "";
  }
}
