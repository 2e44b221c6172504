package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.align.VesselMatch;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;

/** What there is to say of the way two visits were laid on one another. */
final class AlignmentFindings {
  /** A stated registration this far from what was found is contradicted; ours. */
  private static final double CONTRADICTED_MM = 0.30;

  private AlignmentFindings() {}

  /**
   * @param stated from the follow-up's coordinates to the baseline's, as an object states it
   */
  static List<Finding> of(
      MeasuredScan baseline,
      MeasuredScan followUp,
      VisitAlignment.Aligned aligned,
      Optional<FundusTransform> stated) {
    List<Finding> findings = new ArrayList<>();
    String from = " from " + baseline.scan().document().location() + ": ";
    if (aligned.method() != VisitAlignment.Method.VESSELS) {
      String why =
          aligned.vessels().isPresent()
                  && aligned.vessels().get() instanceof VesselMatch.NotFound missed
              ? missed.detail()
              : "a scan shows no shadows of vessels";
      findings.add(
          new Finding(
              FindingKind.VESSELS_NOT_MATCHED,
              followUp.scan().document().location(),
              "laid on the baseline by " + aligned.method().code() + from + why));
    }
    double apart = apartMm(followUp, aligned, stated);
    if (apart > CONTRADICTED_MM) {
      findings.add(
          new Finding(
              FindingKind.STATED_REGISTRATION_DOUBTED,
              followUp.scan().document().location(),
              String.format(
                  Locale.ROOT,
                  "the registration stated%sit differs by %.2f mm at the centre from %s, which was"
                      + " used",
                  from,
                  apart,
                  aligned.method().code())));
    }
    return findings;
  }

  /** How far the place found for the follow-up's centre is from the one stated; 0 without both. */
  private static double apartMm(
      MeasuredScan followUp, VisitAlignment.Aligned aligned, Optional<FundusTransform> stated) {
    if (stated.isEmpty() || aligned.transform().isEmpty()) {
      return 0;
    }
    FundusPoint centre = followUp.place().orElseThrow().centre().point();
    return stated.get().apply(centre).distanceMm(aligned.transform().get().apply(centre));
  }
}
