package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.analysis.series.TherapyResponse;
import org.isopach.analysis.series.VisitPoint;
import org.isopach.analysis.series.VisitSeries;

/**
 * {@code response.csv}: the change from before the first treatment to every visit after it, one row
 * for each sector, layer and visit. Eyes without a treatment have no rows.
 */
public final class ResponseFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              EyeKey.SERIES_COLUMNS.stream(),
              Stream.of(
                  "first_treatment",
                  "reference_date",
                  "reference_sop_uid",
                  "date",
                  "sop_uid",
                  "days_from_treatment",
                  "loading_phase",
                  "change_um",
                  "change_percent",
                  "measurable",
                  "reason"))
          .toList();

  private ResponseFile() {}

  /** Writes the courses in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, List<EyeCourse> courses, SeriesRules rules)
      throws IOException {
    List<List<String>> rows = new ArrayList<>();
    for (EyeCourse course : EyeKey.inOrder(courses)) {
      for (VisitSeries series : EyeKey.inOrder(course)) {
        course.response(series, rules).ifPresent(response -> rows.addAll(rows(response)));
      }
    }
    return CsvRows.write(target, COLUMNS, rows);
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  static List<List<String>> rows(TherapyResponse response) {
    return response.steps().stream().map(step -> row(response, step)).toList();
  }

  private static List<String> row(TherapyResponse response, TherapyResponse.Step step) {
    List<String> cells = new ArrayList<>(EyeKey.cells(response.series()));
    cells.add(response.firstTreatment().toString());
    cells.add(response.reference().map(VisitPoint::date).map(Object::toString).orElse(""));
    cells.add(response.reference().map(point -> point.scan().sopUid()).orElse(""));
    cells.add(step.visit().date().toString());
    cells.add(step.visit().scan().sopUid());
    cells.add(Long.toString(step.daysFromTreatment()));
    cells.add(Boolean.toString(step.loadingPhase()));
    cells.add(number(step.changeUm()));
    cells.add(number(step.changePercent()));
    cells.add(Boolean.toString(step.changeUm().isPresent()));
    cells.add(step.reason());
    return cells;
  }

  private static String number(OptionalDouble value) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), 3) : "";
  }
}
