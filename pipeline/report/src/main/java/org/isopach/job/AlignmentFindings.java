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
import org.isopach.analysis.map.Landmark;

/** What there is to say of the way two visits were laid on one another. */
final class AlignmentFindings {
  /** A stated registration this far from what was found is contradicted; ours. */
  private static final double CONTRADICTED_MM = 0.30;

  /** Grids this far from one another differ in their sectors (IOVS article 2127780). */
  private static final double LANDMARKS_MM = 0.20;

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
    double landmarks = landmarksApartMm(baseline, followUp, aligned);
    if (landmarks > LANDMARKS_MM) {
      findings.add(
          new Finding(
              FindingKind.LANDMARKS_APART,
              followUp.scan().document().location(),
              String.format(
                  Locale.ROOT,
                  "by its vessels its own %s lies %.2f mm from the %s%sthe change is reckoned about"
                      + " the latter",
                  followUp.place().orElseThrow().centre().source().code(),
                  landmarks,
                  baseline.place().orElseThrow().centre().source().code(),
                  from)));
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

  /** How far two foveal pits lie apart once the vessels lie on one another; 0 without them. */
  private static double landmarksApartMm(
      MeasuredScan baseline, MeasuredScan followUp, VisitAlignment.Aligned aligned) {
    Landmark before = baseline.place().orElseThrow().centre();
    Landmark after = followUp.place().orElseThrow().centre();
    boolean pits =
        before.source() == Landmark.Source.FOVEAL_PIT
            && after.source() == Landmark.Source.FOVEAL_PIT;
    return pits && aligned.method() == VisitAlignment.Method.VESSELS
        ? aligned.transform().orElseThrow().apply(after.point()).distanceMm(before.point())
        : 0;
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
