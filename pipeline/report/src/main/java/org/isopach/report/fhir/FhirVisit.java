package org.isopach.report.fhir;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.table.NerveTable;

/**
 * What was measured of one eye in one study.
 *
 * @param eye which eye; its issuer is the one the scans name, empty when none does
 * @param studyUid the DICOM study
 * @param grids thickness by sector, one table for each scan and layer
 * @param nerves what was measured of the nerve
 * @param flags what a reader of the numbers must know of a scan, by its SOP Instance UID
 * @param lateralScales what lengths on the fundus were multiplied with against those the scan
 *     states, likewise
 */
public record FhirVisit(
    Eye eye,
    String studyUid,
    List<SectorTable> grids,
    List<NerveTable> nerves,
    Map<String, List<FindingKind>> flags,
    Map<String, Double> lateralScales) {
  public FhirVisit {
    Objects.requireNonNull(eye, "eye");
    Objects.requireNonNull(studyUid, "studyUid");
    grids = List.copyOf(grids);
    nerves = List.copyOf(nerves);
    flags = Map.copyOf(flags);
    lateralScales = Map.copyOf(lateralScales);
  }

  /**
   * Returns the day of the first scan; DICOM states no time zone, so no time of day is given. Empty
   * when no scan is dated.
   */
  Optional<LocalDate> day() {
    return Stream.concat(
            grids.stream().map(SectorTable::scan), nerves.stream().map(NerveTable::scan))
        .flatMap(scan -> day(scan).stream())
        .min(Comparator.naturalOrder());
  }

  /** Returns the day of a scan, or empty. */
  static Optional<LocalDate> day(ScanIdentity scan) {
    return scan.acquired().map(time -> time.toLocalDate());
  }

  /** Returns what the lengths of a scan are, in words. */
  String lengths(ScanIdentity scan) {
    Double scale = lateralScales.get(scan.sopUid());
    if (scale == null) {
      return "scale of lengths not known";
    }
    return scale == 1
        ? "lengths as the scan states them"
        : String.format(Locale.ROOT, "lengths corrected for axial length, times %.4f", scale);
  }

  List<FindingKind> flags(ScanIdentity scan) {
    return flags.getOrDefault(scan.sopUid(), List.of());
  }
}
