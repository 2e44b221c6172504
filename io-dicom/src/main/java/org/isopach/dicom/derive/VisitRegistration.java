package org.isopach.dicom.derive;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.scan.OctScan;

/**
 * A registration that was found between two scans of one eye.
 *
 * @param baseline the scan that points are taken to, as it was read
 * @param followUp the scan that points are taken from, as it was read
 * @param followUpToBaseline takes mm of the follow-up's frame to mm of the baseline's, both in the
 *     lengths that the objects state, without any correction for axial length
 */
public record VisitRegistration(
    OctScan baseline, OctScan followUp, FundusTransform followUpToBaseline) {
  public VisitRegistration {
    Objects.requireNonNull(baseline, "baseline");
    Objects.requireNonNull(followUp, "followUp");
    Objects.requireNonNull(followUpToBaseline, "followUpToBaseline");
  }
}
