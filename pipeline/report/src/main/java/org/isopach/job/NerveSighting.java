package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.OctScan;

/**
 * What one scan shows of the nerve by itself, before the other scans of the visit are looked at.
 * Places are in the mm of the eye: those of the scan's path, corrected for axial length where that
 * was asked for.
 *
 * @param scan the scan
 * @param lateralScale what lengths were multiplied with
 * @param boundaries what was found in it; empty when nothing was, or once they are written
 * @param circle the profile, of a circle scan or resampled from a volume
 * @param disc the disc in a volume
 * @param fovea the foveal pit
 * @param ganglion maps of the inner layers round the fovea
 * @param seen what a table of quality says of fovea and disc, in the scan's own mm
 * @param findings what there is to say
 * @param quality how good the scan is
 * @param lookNanos time taken to find boundaries
 * @param mapNanos time taken by maps and the rim
 */
record NerveSighting(
    OctScan scan,
    double lateralScale,
    Optional<BoundarySet> boundaries,
    Optional<CircleSight> circle,
    Optional<DiscSight> disc,
    Optional<FundusPoint> fovea,
    List<ThicknessMap> ganglion,
    Seen seen,
    List<Finding> findings,
    ScanQuality quality,
    long lookNanos,
    long mapNanos) {

  /** Fovea and disc for the table of quality. */
  record Seen(Optional<Landmark> fovea, Optional<OpticDisc> disc) {}

  NerveSighting {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(boundaries, "boundaries");
    Objects.requireNonNull(circle, "circle");
    Objects.requireNonNull(disc, "disc");
    Objects.requireNonNull(fovea, "fovea");
    ganglion = List.copyOf(ganglion);
    Objects.requireNonNull(seen, "seen");
    findings = List.copyOf(findings);
    Objects.requireNonNull(quality, "quality");
  }

  /** Returns this without the boundaries, which take room. */
  NerveSighting withoutBoundaries() {
    return keeping(disc, ganglion);
  }

  /** Returns this without boundaries and maps. */
  NerveSighting light() {
    return keeping(disc.map(DiscSight::withoutMap), List.of());
  }

  private NerveSighting keeping(Optional<DiscSight> shown, List<ThicknessMap> maps) {
    return new NerveSighting(
        scan,
        lateralScale,
        Optional.empty(),
        circle,
        shown,
        fovea,
        maps,
        seen,
        findings,
        quality,
        lookNanos,
        mapNanos);
  }

  /** Returns what the scan was taken for; empty when it shows nothing of the nerve. */
  List<NerveRole> roles() {
    List<NerveRole> roles = new ArrayList<>();
    if (disc.isPresent()) {
      roles.add(NerveRole.DISC_VOLUME);
    } else if (circle.isPresent()) {
      roles.add(NerveRole.CIRCLE);
    }
    if (!ganglion.isEmpty()) {
      roles.add(NerveRole.MACULA_VOLUME);
    }
    return roles;
  }

  /** Returns whether the scan shows the nerve itself. */
  boolean showsNerve() {
    return circle.isPresent() || disc.isPresent();
  }

  /** Returns the centre of the disc: of its opening, or of the circle that was laid round it. */
  Optional<FundusPoint> discCentre() {
    return disc.map(one -> one.opening().centre())
        .or(() -> circle.map(one -> one.profile().centre()));
  }
}
