package org.isopach.report.fhir;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.report.table.NerveTable;

/**
 * What was measured of one eye in one study.
 *
 * @param eye which eye
 * @param studyUid the DICOM study
 * @param day of the acquisition; DICOM states no time zone, so no time of day is given; empty when
 *     not known
 * @param grids thickness by sector, one table for each scan and layer
 * @param nerves what was measured of the nerve
 */
public record FhirVisit(
    Eye eye,
    String studyUid,
    Optional<LocalDate> day,
    List<SectorTable> grids,
    List<NerveTable> nerves) {
  public FhirVisit {
    Objects.requireNonNull(eye, "eye");
    Objects.requireNonNull(studyUid, "studyUid");
    Objects.requireNonNull(day, "day");
    grids = List.copyOf(grids);
    nerves = List.copyOf(nerves);
  }
}
