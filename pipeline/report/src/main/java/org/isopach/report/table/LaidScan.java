package org.isopach.report.table;

import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * How a follow-up was laid on its baseline, for a table.
 *
 * @param baseline the scan laid on
 * @param followUp the scan laid
 * @param laterality which eye
 * @param alignment by what, as named in tables
 * @param transform from the follow-up's own coordinates to the baseline's; empty when only centres
 *     were known
 * @param shift where the follow-up's own landmark lies from the baseline's, mm right and down;
 *     empty as before
 * @param placeSdMm standard deviation of the error of place along each axis, mm
 * @param vessels what the vessels told; empty when they were not matched
 * @param whyNot why they were not, empty when they were
 * @param depthShiftUm median over the A-scans of how far the follow-up must be moved deeper
 */
public record LaidScan(
    ScanIdentity baseline,
    ScanIdentity followUp,
    Laterality laterality,
    String alignment,
    Optional<FundusTransform> transform,
    Optional<FundusPoint> shift,
    double placeSdMm,
    Optional<Vessels> vessels,
    String whyNot,
    OptionalDouble depthShiftUm) {

  /**
   * How well vessels were matched.
   *
   * @param correlation of the two shadow pictures
   * @param halvesApartMm how far the places found from two halves are apart
   * @param sharedFraction share of the follow-up that lies on the baseline
   * @param motionMm root mean square of the frames' shifts
   */
  public record Vessels(
      double correlation, double halvesApartMm, double sharedFraction, double motionMm) {}

  public LaidScan {
    Objects.requireNonNull(baseline, "baseline");
    Objects.requireNonNull(followUp, "followUp");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(alignment, "alignment");
    Objects.requireNonNull(transform, "transform");
    Objects.requireNonNull(shift, "shift");
    Objects.requireNonNull(vessels, "vessels");
    Objects.requireNonNull(whyNot, "whyNot");
    Objects.requireNonNull(depthShiftUm, "depthShiftUm");
  }
}
