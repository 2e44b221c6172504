package org.isopach.align;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.map.Landmark;

/**
 * Decides by what the scans of two visits are put on one lattice, the surest first.
 *
 * <p>The shadows of vessels tell turn, scale, shift and motion. Where they cannot be matched, a
 * registration that an object states is used as it is; then two foveal pits, which are one place of
 * the retina; then a coordinate system that both scans share, about the pit that was found or the
 * baseline's centre. A pit in one scan and the middle of another, in coordinates of their own, are
 * no two views of one place: they are refused.
 */
public final class VisitAligner {
  /**
   * Of two pits on one another, along each axis. On healthy phantoms a pit is found within 26 µm in
   * half of the eyes (median of the distance): 26 / 1.177 µm along each axis, times √2 for two.
   * Ours; see {@code docs/accuracy.md}.
   */
  static final double PIT_SD_MM = 0.031;

  /** Of an instrument that places both scans itself. Ours; nothing was at hand to measure it. */
  static final double FRAME_SD_MM = 0.050;

  private VisitAligner() {}

  /**
   * Returns how two visits are laid on one another, or why they are not.
   *
   * @param stated what takes the follow-up's coordinates to the baseline's, as an object states it;
   *     the identity for scans placed in one coordinate system; empty when nothing is stated
   */
  public static VisitAlignment align(
      ScanPlace baseline, ScanPlace followUp, Optional<FundusTransform> stated) {
    Optional<VesselMatch> vessels = vessels(baseline, followUp, stated);
    if (vessels.isPresent() && vessels.get() instanceof VesselMatch.Found found) {
      return new VisitAlignment.Aligned(
          baseline.landmark(),
          found.placed(),
          baseline.landmark(),
          VisitAlignment.Method.VESSELS,
          found.placeSdMm(),
          Optional.of(found.transform()),
          vessels);
    }
    boolean shared = share(baseline.frame(), followUp.frame());
    if (stated.isPresent() && !shared) {
      return new VisitAlignment.Aligned(
          baseline.landmark(),
          followUp.path().movedBy(stated.get(), baseline.frame()),
          baseline.landmark(),
          VisitAlignment.Method.STATED,
          FRAME_SD_MM,
          stated,
          vessels);
    }
    return byCentres(baseline, followUp, shared, vessels);
  }

  private static VisitAlignment byCentres(
      ScanPlace baseline, ScanPlace followUp, boolean shared, Optional<VesselMatch> vessels) {
    if (baseline.hasPit() && followUp.hasPit()) {
      return new VisitAlignment.Aligned(
          baseline.landmark(),
          followUp.path(),
          followUp.landmark(),
          VisitAlignment.Method.FOVEAL_PIT,
          PIT_SD_MM,
          Optional.empty(),
          vessels);
    }
    if (shared) {
      Landmark common = followUp.hasPit() ? followUp.landmark() : baseline.landmark();
      return new VisitAlignment.Aligned(
          common,
          followUp.path(),
          common,
          VisitAlignment.Method.SHARED_FRAME,
          FRAME_SD_MM,
          Optional.of(FundusTransform.IDENTITY),
          vessels);
    }
    return new VisitAlignment.NotAligned(
        "the centres are "
            + baseline.landmark().source().code()
            + " and "
            + followUp.landmark().source().code()
            + ", the scans share no coordinate system"
            + vessels.map(VisitAligner::why).orElse(""));
  }

  private static String why(VesselMatch match) {
    return match instanceof VesselMatch.NotFound missed ? ", and " + missed.detail() : "";
  }

  /** Looks for the vessels from one start after another; empty when a scan shows none. */
  private static Optional<VesselMatch> vessels(
      ScanPlace baseline, ScanPlace followUp, Optional<FundusTransform> stated) {
    if (baseline.shadows().isEmpty() || followUp.shadows().isEmpty()) {
      return Optional.empty();
    }
    VesselRegistrar registrar =
        new VesselRegistrar(baseline.shadows().get(), followUp.shadows().get());
    VesselMatch match = null;
    for (SearchStart start : starts(baseline, followUp, stated)) {
      match = registrar.match(start);
      if (match instanceof VesselMatch.Found) {
        break;
      }
    }
    return Optional.ofNullable(match);
  }

  private static List<SearchStart> starts(
      ScanPlace baseline, ScanPlace followUp, Optional<FundusTransform> stated) {
    List<SearchStart> starts = new ArrayList<>();
    stated.ifPresent(guess -> starts.add(SearchStart.stated(followUp.landmark().point(), guess)));
    if (baseline.hasPit() && followUp.hasPit()) {
      starts.add(SearchStart.near(followUp.landmark().point(), baseline.landmark().point()));
    }
    starts.add(SearchStart.far(followUp.path().middle(), baseline.path().middle()));
    return starts;
  }

  private static boolean share(FundusFrame a, FundusFrame b) {
    return !a.uid().isEmpty() && a.equals(b);
  }
}
