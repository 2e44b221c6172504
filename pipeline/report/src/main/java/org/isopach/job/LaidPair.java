package org.isopach.job;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.isopach.align.DepthAlignment;
import org.isopach.align.VesselMatch;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.report.table.LaidScan;

/**
 * A follow-up laid on its baseline.
 *
 * @param baseline the scan laid on
 * @param followUp the scan laid
 * @param aligned how
 * @param depths how far its A-scans must be moved in depth to lie where the baseline's do
 */
public record LaidPair(
    MeasuredScan baseline,
    MeasuredScan followUp,
    VisitAlignment.Aligned aligned,
    DepthAlignment depths) {
  public LaidPair {
    Objects.requireNonNull(baseline, "baseline");
    Objects.requireNonNull(followUp, "followUp");
    Objects.requireNonNull(aligned, "aligned");
    Objects.requireNonNull(depths, "depths");
  }

  static LaidPair of(MeasuredScan baseline, MeasuredScan followUp, VisitAlignment.Aligned aligned) {
    return new LaidPair(baseline, followUp, aligned, depths(baseline, followUp, aligned));
  }

  /** Membranes in coordinates about the two centres, which are one place. */
  private static DepthAlignment depths(
      MeasuredScan baseline, MeasuredScan followUp, VisitAlignment.Aligned aligned) {
    return DepthAlignment.of(
        new DepthAlignment.Side(
            baseline.place().orElseThrow().path(),
            aligned.baseline().point(),
            baseline.scan().axial(),
            baseline.boundaries().orElseThrow()),
        new DepthAlignment.Side(
            aligned.followUpPath(),
            aligned.followUp().point(),
            followUp.scan().axial(),
            followUp.boundaries().orElseThrow()));
  }

  /** Returns the scan in whose own coordinates the follow-up was laid. */
  MeasuredScan coordinates() {
    return switch (aligned.method()) {
      case VESSELS, STATED -> baseline;
      case SHARED_FRAME, FOVEAL_PIT -> followUp;
    };
  }

  /** Returns the registration found by vessels, to be written as an object. */
  Optional<FoundRegistration> registration() {
    return found().map(this::registration);
  }

  private FoundRegistration registration(VesselMatch.Found found) {
    String method =
        String.format(
            Locale.ROOT,
            "Shadows of vessels; correlation %.2f, place SD %.3f mm along each axis; the eye's"
                + " motion within the scans is left out",
            found.correlation(),
            found.placeSdMm());
    return FoundRegistration.of(baseline, followUp, found.transform(), method);
  }

  /** Returns the row of the table of registrations. */
  LaidScan row() {
    FundusPoint own = followUp.place().orElseThrow().centre().point();
    FundusPoint centre = baseline.place().orElseThrow().centre().point();
    return new LaidScan(
        baseline.scan().identity(),
        followUp.scan().identity(),
        followUp.scan().laterality().orElseThrow(),
        aligned.method().code(),
        aligned.transform(),
        aligned.transform().map(transform -> transform.apply(own).minus(centre)),
        aligned.placeSdMm(),
        found()
            .map(
                one ->
                    new LaidScan.Vessels(
                        one.correlation(),
                        one.halvesApartMm(),
                        one.sharedFraction(),
                        one.motionMm())),
        whyNotVessels(),
        depths.medianUm());
  }

  private Optional<VesselMatch.Found> found() {
    return aligned
        .vessels()
        .flatMap(
            match ->
                match instanceof VesselMatch.Found found ? Optional.of(found) : Optional.empty());
  }

  private String whyNotVessels() {
    if (aligned.vessels().isEmpty()) {
      return "a scan shows no shadows of vessels";
    }
    return aligned.vessels().get() instanceof VesselMatch.NotFound missed ? missed.detail() : "";
  }
}
