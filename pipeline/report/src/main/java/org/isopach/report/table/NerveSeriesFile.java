package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;

/**
 * {@code nerve-series.csv}: every visit of every eye in every value of the nerve, one row each.
 *
 * <p>Rows keep the order of eyes, roles, measures, schemes, sectors and visits. A visit without a
 * value has an empty cell and {@code reason} says why.
 */
public final class NerveSeriesFile {
  static final List<String> KEY_COLUMNS =
      List.of(
          "patient_id",
          "patient_id_issuer",
          "laterality",
          "role",
          "measure",
          "layer",
          "scheme",
          "sector",
          "unit");

  private static final List<String> COLUMNS =
      Stream.concat(
              KEY_COLUMNS.stream(),
              Stream.of(
                  "visit",
                  "study_uid",
                  "series_uid",
                  "sop_uid",
                  "acquired",
                  "n_days",
                  "value",
                  "measurable",
                  "reason"))
          .toList();

  private NerveSeriesFile() {}

  /** Writes the courses in the order given and returns the file's SHA-256 digest. */
  public static String write(Path target, List<NerveCourse> courses) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(courses));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(List<NerveCourse> courses) {
    List<List<String>> rows = new ArrayList<>();
    for (NerveCourse course : courses) {
      for (int i = 0; i < course.points().size(); i++) {
        rows.add(row(course, course.points().get(i), i + 1));
      }
    }
    return rows;
  }

  static List<String> key(NerveCourse course) {
    List<String> cells = new ArrayList<>(EyeKey.cells(course.eye()));
    NerveKey key = course.key();
    cells.addAll(
        List.of(
            course.role(),
            key.measure().code(),
            key.layer(),
            key.scheme(),
            key.sector(),
            key.measure().unit()));
    return cells;
  }

  private static List<String> row(NerveCourse course, NerveCourse.Point point, int visit) {
    List<String> cells = key(course);
    cells.add(Integer.toString(visit));
    cells.add(point.scan().studyUid());
    cells.add(point.scan().seriesUid());
    cells.add(point.scan().sopUid());
    cells.add(ScanKey.time(point.scan().acquired()));
    cells.add(Long.toString(point.days()));
    cells.add(
        point.value().isPresent()
            ? TableNumber.fixed(point.value().getAsDouble(), course.key().measure().decimals())
            : "");
    cells.add(Boolean.toString(point.value().isPresent()));
    cells.add(point.reason());
    return cells;
  }
}
