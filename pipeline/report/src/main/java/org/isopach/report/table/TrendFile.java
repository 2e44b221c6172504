package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.analysis.series.SeriesTrend;
import org.isopach.analysis.series.VisitSeries;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.analysis.stat.TheilSen;

/**
 * {@code trend.csv}: how every series runs, one row each.
 *
 * <p>Slopes are in µm per year, raw first; where ageing was to be subtracted, the corrected ones
 * stand beside them with the slope that was subtracted and its source, or the reason why none was.
 */
public final class TrendFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              EyeKey.SERIES_COLUMNS.stream(),
              Stream.of(
                  "visits",
                  "span_days",
                  "difference_um",
                  "slope_um_per_year",
                  "slope_low_um_per_year",
                  "slope_high_um_per_year",
                  "residual_sd_um",
                  "robust_slope_um_per_year",
                  "robust_low_um_per_year",
                  "robust_high_um_per_year",
                  "reason",
                  "age_slope_um_per_year",
                  "age_corrected_slope_um_per_year",
                  "age_corrected_low_um_per_year",
                  "age_corrected_high_um_per_year",
                  "age_corrected_robust_slope_um_per_year",
                  "age_reason",
                  "age_population",
                  "age_source"))
          .toList();

  private TrendFile() {}

  /** Writes the courses in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, List<EyeCourse> courses, SeriesRules rules)
      throws IOException {
    List<List<String>> rows = new ArrayList<>();
    for (EyeCourse course : EyeKey.inOrder(courses)) {
      EyeKey.inOrder(course).forEach(series -> rows.add(row(series, rules)));
    }
    return CsvRows.write(target, COLUMNS, rows);
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  static List<String> row(VisitSeries series, SeriesRules rules) {
    SeriesTrend trend = SeriesTrend.of(series);
    List<String> cells = new ArrayList<>(EyeKey.cells(series));
    cells.add(Integer.toString(trend.visits()));
    cells.add(Long.toString(trend.spanDays()));
    cells.add(number(trend.differenceUm()));
    Optional<ConfidenceInterval> interval = trend.line().map(LinearTrend::slopeInterval);
    Optional<ConfidenceInterval> robust = trend.robust().flatMap(TheilSen::slopeInterval);
    cells.add(number(trend.line().map(LinearTrend::slope)));
    cells.add(number(interval.map(ConfidenceInterval::lower)));
    cells.add(number(interval.map(ConfidenceInterval::upper)));
    cells.add(number(trend.line().map(LinearTrend::residualSd)));
    cells.add(number(trend.robust().map(TheilSen::slope)));
    cells.add(number(robust.map(ConfidenceInterval::lower)));
    cells.add(number(robust.map(ConfidenceInterval::upper)));
    cells.add(reason(trend));
    cells.addAll(ageing(trend, rules.ageing(series)));
    return cells;
  }

  private static String reason(SeriesTrend trend) {
    boolean few = trend.robust().filter(one -> one.slopeInterval().isEmpty()).isPresent();
    return trend.refusal().orElse(few ? "too few visits for an interval of the robust slope" : "");
  }

  private static List<String> ageing(SeriesTrend trend, Optional<AgeSlope> known) {
    if (known.isEmpty()) {
      return List.of("", "", "", "", "", "", "", "");
    }
    AgeSlope age = known.get();
    if (age.umPerYear().isEmpty()) {
      return List.of("", "", "", "", "", age.refusal(), age.population(), age.source());
    }
    double slope = age.umPerYear().getAsDouble();
    Optional<LinearTrend> line = trend.line();
    return List.of(
        TableNumber.fixed(slope, 3),
        number(line.map(one -> one.slope() - slope)),
        number(line.map(one -> one.slopeInterval().lower() - slope)),
        number(line.map(one -> one.slopeInterval().upper() - slope)),
        number(trend.robust().map(one -> one.slope() - slope)),
        "",
        age.population(),
        age.source());
  }

  private static String number(Optional<Double> value) {
    return value.map(one -> TableNumber.fixed(one, 3)).orElse("");
  }

  private static String number(OptionalDouble value) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), 3) : "";
  }
}
