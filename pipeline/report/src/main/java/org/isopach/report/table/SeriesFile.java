package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.VisitPoint;
import org.isopach.analysis.series.VisitSeries;
import org.isopach.analysis.series.VisitValue;

/**
 * {@code series.csv}: every visit of every eye in every sector of every layer, one row each.
 *
 * <p>Rows are ordered by patient, issuer, eye, layer, sector, visit. A visit without a number has
 * an empty value, {@code measurable} is {@code false} and {@code reason} says why.
 */
public final class SeriesFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              EyeKey.SERIES_COLUMNS.stream(),
              Stream.of(
                  "visit",
                  "study_uid",
                  "series_uid",
                  "sop_uid",
                  "acquired",
                  "n_days",
                  "value_um",
                  "change_um",
                  "covered_fraction",
                  "alignment",
                  "measurable",
                  "reason"))
          .toList();

  private SeriesFile() {}

  /** Writes the courses in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, List<EyeCourse> courses) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(courses));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  static List<List<String>> rows(List<EyeCourse> courses) {
    List<List<String>> rows = new ArrayList<>();
    for (EyeCourse course : EyeKey.inOrder(courses)) {
      EyeKey.inOrder(course).forEach(series -> rows.addAll(rows(series)));
    }
    return rows;
  }

  static List<List<String>> rows(VisitSeries series) {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < series.points().size(); i++) {
      rows.add(row(series, series.points().get(i), i + 1));
    }
    return rows;
  }

  private static List<String> row(VisitSeries series, VisitPoint point, int visit) {
    List<String> cells = new ArrayList<>(EyeKey.cells(series));
    cells.add(Integer.toString(visit));
    cells.add(point.scan().studyUid());
    cells.add(point.scan().seriesUid());
    cells.add(point.scan().sopUid());
    cells.add(ScanKey.time(point.scan().acquired()));
    cells.add(Long.toString(point.days()));
    cells.add(point.given().map(one -> TableNumber.fixed(one.valueUm(), 3)).orElse(""));
    cells.add(point.given().map(one -> TableNumber.fixed(one.changeUm(), 3)).orElse(""));
    cells.add(TableNumber.fixed(point.coveredFraction(), 4));
    cells.add(point.alignment());
    cells.add(Boolean.toString(point.given().isPresent()));
    cells.add(point.value() instanceof VisitValue.Missing missing ? missing.reason() : "");
    return cells;
  }
}
