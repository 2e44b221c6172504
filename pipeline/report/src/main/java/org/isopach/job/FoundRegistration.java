package org.isopach.job;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.dicom.derive.VisitRegistration;

/**
 * A registration that was found in a run, to be written as an object.
 *
 * @param registration the two scans and the transform, in the lengths their objects state
 * @param method by what it was found, in plain words with everything chosen for it; not blank
 */
public record FoundRegistration(VisitRegistration registration, String method) {
  public FoundRegistration {
    Objects.requireNonNull(registration, "registration");
    if (method.isBlank()) {
      throw new IllegalArgumentException("the method must not be blank");
    }
  }

  /**
   * Returns a registration found in the mm that maps are made in, which may be corrected for axial
   * length, in the mm that the objects state.
   *
   * @param baseline the scan that points are taken to; it has a place
   * @param followUp the scan that points are taken from; it has a place
   * @param inMaps takes mm of the follow-up's place to mm of the baseline's
   */
  static FoundRegistration of(
      MeasuredScan baseline, MeasuredScan followUp, FundusTransform inMaps, String method) {
    double first = baseline.place().orElseThrow().lateralScale();
    double second = followUp.place().orElseThrow().lateralScale();
    return new FoundRegistration(
        new VisitRegistration(
            baseline.scan(), followUp.scan(), inMaps.withLengths(1 / second, 1 / first)),
        method);
  }
}
