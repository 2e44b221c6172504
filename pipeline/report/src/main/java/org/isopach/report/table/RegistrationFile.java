package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;

/**
 * {@code registration.csv}: how every follow-up was laid on its baseline, one row each.
 *
 * <p>{@code scale}, {@code rotation_deg} (positive clockwise as the examiner sees the eye) and the
 * shift take the follow-up's stated coordinates to the baseline's; {@code shift_x_mm} (right) and
 * {@code shift_y_mm} (down) are those of the follow-up's landmark against the baseline's: 0 when
 * both landmarks were found at one place of the retina. Empty where only centres were known, or
 * vessels were not matched. Ordered by patient, eye, time, object.
 */
public final class RegistrationFile {
  private static final List<String> COLUMNS =
      List.of(
          "patient_id",
          "study_uid",
          "series_uid",
          "sop_uid",
          "acquired",
          "laterality",
          "baseline_sop_uid",
          "baseline_acquired",
          "alignment",
          "scale",
          "rotation_deg",
          "shift_x_mm",
          "shift_y_mm",
          "place_sd_mm",
          "correlation",
          "halves_apart_mm",
          "shared_fraction",
          "motion_mm",
          "depth_shift_um",
          "why_not_vessels");

  private static final Comparator<LaidScan> ORDER =
      Comparator.comparing((LaidScan laid) -> laid.followUp().patientId())
          .thenComparing(LaidScan::laterality)
          .thenComparing(laid -> ScanKey.timeOrLast(laid.followUp()))
          .thenComparing(laid -> laid.followUp().sopUid());

  private RegistrationFile() {}

  /** Writes the table in its fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<LaidScan> scans) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(scans));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<LaidScan> scans) {
    return scans.stream().sorted(ORDER).map(RegistrationFile::row).toList();
  }

  private static List<String> row(LaidScan laid) {
    List<String> cells =
        new ArrayList<>(
            List.of(
                laid.followUp().patientId(),
                laid.followUp().studyUid(),
                laid.followUp().seriesUid(),
                laid.followUp().sopUid(),
                ScanKey.time(laid.followUp().acquired()),
                laid.laterality().code(),
                laid.baseline().sopUid(),
                ScanKey.time(laid.baseline().acquired()),
                laid.alignment()));
    cells.add(number(laid.transform().map(FundusTransform::scale), 5));
    cells.add(number(laid.transform().map(FundusTransform::rotationDegrees), 3));
    cells.add(number(laid.shift().map(FundusPoint::xMm), 4));
    cells.add(number(laid.shift().map(FundusPoint::yMm), 4));
    cells.add(TableNumber.fixed(laid.placeSdMm(), 4));
    cells.add(number(laid.vessels().map(LaidScan.Vessels::correlation), 3));
    cells.add(number(laid.vessels().map(LaidScan.Vessels::halvesApartMm), 3));
    cells.add(number(laid.vessels().map(LaidScan.Vessels::sharedFraction), 3));
    cells.add(number(laid.vessels().map(LaidScan.Vessels::motionMm), 4));
    OptionalDouble depth = laid.depthShiftUm();
    cells.add(depth.isPresent() ? TableNumber.fixed(depth.getAsDouble(), 2) : "");
    cells.add(laid.whyNot());
    return cells;
  }

  private static String number(Optional<Double> value, int decimals) {
    return value.map(one -> TableNumber.fixed(one, decimals)).orElse("");
  }
}
