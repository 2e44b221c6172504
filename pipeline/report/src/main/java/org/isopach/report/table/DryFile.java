package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.analysis.series.TimeToDry;
import org.isopach.analysis.series.VisitFluid;

/** {@code dry.csv}: when each treated eye was first found dry, one row for an eye. */
public final class DryFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              EyeKey.COLUMNS.stream(),
              Stream.of(
                  "first_treatment",
                  "floor_nl",
                  "answer",
                  "date",
                  "days_from_treatment",
                  "volume_nl",
                  "unmeasured_visits",
                  "unmeasured_dates"))
          .toList();

  private DryFile() {}

  /** Writes the courses in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, List<EyeCourse> courses, SeriesRules rules)
      throws IOException {
    List<List<String>> rows = new ArrayList<>();
    for (EyeCourse course : EyeKey.inOrder(courses)) {
      course.timeToDry(rules).ifPresent(dry -> rows.add(row(course, dry, rules)));
    }
    return CsvRows.write(target, COLUMNS, rows);
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  static List<String> row(EyeCourse course, TimeToDry dry, SeriesRules rules) {
    List<String> cells = new ArrayList<>(EyeKey.cells(course.eye()));
    cells.add(course.firstTreatment().orElseThrow().toString());
    cells.add(TableNumber.fixed(rules.dryFloorNl(), 3));
    cells.add(dry.state().code());
    cells.add(dry.visit().map(VisitFluid::date).map(Object::toString).orElse(""));
    cells.add(whole(dry.days()));
    cells.add(dry.visit().map(DryFile::volume).orElse(""));
    cells.add(Integer.toString(dry.unmeasured().size()));
    cells.add(
        dry.unmeasured().stream()
            .map(visit -> visit.date().toString())
            .collect(Collectors.joining(" ")));
    return cells;
  }

  static String volume(VisitFluid visit) {
    return visit.volumeNl().isPresent() ? TableNumber.fixed(visit.volumeNl().getAsDouble(), 4) : "";
  }

  private static String whole(OptionalLong value) {
    return value.isPresent() ? Long.toString(value.getAsLong()) : "";
  }
}
