package org.isopach.report.table;

import java.util.Objects;
import java.util.OptionalDouble;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * How a follow-up was laid on its baseline, for a table.
 *
 * @param baseline the scan laid on
 * @param followUp the scan laid
 * @param laterality which eye
 * @param followUpCentre the follow-up's own landmark, in its own coordinates
 * @param baselineCentre the baseline's landmark
 * @param aligned how
 * @param depthShiftUm median over the A-scans of how far the follow-up must be moved deeper
 */
public record LaidScan(
    ScanIdentity baseline,
    ScanIdentity followUp,
    Laterality laterality,
    Landmark followUpCentre,
    Landmark baselineCentre,
    VisitAlignment.Aligned aligned,
    OptionalDouble depthShiftUm) {
  public LaidScan {
    Objects.requireNonNull(baseline, "baseline");
    Objects.requireNonNull(followUp, "followUp");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(followUpCentre, "followUpCentre");
    Objects.requireNonNull(baselineCentre, "baselineCentre");
    Objects.requireNonNull(aligned, "aligned");
    Objects.requireNonNull(depthShiftUm, "depthShiftUm");
  }
}
