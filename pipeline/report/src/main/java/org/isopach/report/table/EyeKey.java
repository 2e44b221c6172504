package org.isopach.report.table;

import java.util.Comparator;
import java.util.List;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.VisitSeries;

/** What rows about the course of an eye are known and ordered by: patient, issuer, eye, layer. */
final class EyeKey {
  static final List<String> COLUMNS = List.of("patient_id", "patient_id_issuer", "laterality");
  static final List<String> SERIES_COLUMNS =
      List.of("patient_id", "patient_id_issuer", "laterality", "layer", "grid", "sector");

  private static final Comparator<Eye> ORDER =
      Comparator.comparing(Eye::patientId)
          .thenComparing(Eye::issuer)
          .thenComparing(Eye::laterality);

  private EyeKey() {}

  static List<EyeCourse> inOrder(List<EyeCourse> courses) {
    return courses.stream().sorted(Comparator.comparing(EyeCourse::eye, ORDER)).toList();
  }

  /** Returns an eye's series by layer; sectors keep the order of the grid. */
  static List<VisitSeries> inOrder(EyeCourse course) {
    return course.series().stream()
        .sorted(Comparator.comparingInt(one -> LayerCatalogue.ALL.indexOf(one.layer())))
        .toList();
  }

  static List<String> cells(Eye eye) {
    return List.of(eye.patientId(), eye.issuer(), eye.laterality().code());
  }

  static List<String> cells(VisitSeries series) {
    return List.of(
        series.eye().patientId(),
        series.eye().issuer(),
        series.eye().laterality().code(),
        series.layer().name(),
        series.grid(),
        series.sector());
  }
}
