package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.OctScan;

/** A sighting in the making, confined to one measurement. */
final class NerveDraft {
  private final OctScan scan;
  private final EyeScale scale;
  private final long start = System.nanoTime();
  private final List<Finding> findings = new ArrayList<>();
  private Optional<BoundarySet> boundaries = Optional.empty();
  private ScanQuality quality =
      new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.empty());
  private Optional<CircleSight> circle = Optional.empty();
  private Optional<DiscSight> disc = Optional.empty();
  private Optional<FundusPoint> fovea = Optional.empty();
  private List<ThicknessMap> ganglion = List.of();
  private NerveSighting.Seen seen = new NerveSighting.Seen(Optional.empty(), Optional.empty());
  private long looked = start;

  NerveDraft(OctScan scan, EyeScale scale) {
    this.scan = scan;
    this.scale = scale;
  }

  /** Returns the sighting of a scan that is not looked at. */
  static NerveSighting refused(OctScan scan, Finding why) {
    NerveDraft draft = new NerveDraft(scan, new EyeScale(1));
    draft.say(why);
    return draft.sighting();
  }

  EyeScale scale() {
    return scale;
  }

  /** Takes what was found; a scan of which nothing could be read is said to be so. */
  void looked(Optional<BoundarySet> found, ScanQuality how, List<Finding> said) {
    boundaries = found;
    quality = how;
    findings.addAll(said);
    if (found.isEmpty() && said.stream().noneMatch(NerveDraft::refuses)) {
      say(FindingKind.UNSUPPORTED_ENCODING, "no frame could be decoded");
    }
    looked = System.nanoTime();
  }

  void say(Finding finding) {
    findings.add(finding);
  }

  void say(FindingKind kind, String detail) {
    say(new Finding(kind, scan.document().location(), detail));
  }

  /** Takes what a second look says, but for kinds that the first one named. */
  void sayOnce(List<Finding> said) {
    List<FindingKind> kinds = findings.stream().map(Finding::kind).toList();
    said.stream().filter(finding -> !kinds.contains(finding.kind())).forEach(findings::add);
    looked = System.nanoTime();
  }

  void macula(Landmark pit, Optional<OpticDisc> found) {
    seen = new NerveSighting.Seen(Optional.of(pit), found);
    fovea = Optional.of(scale.of(pit.point()));
  }

  void foveaIfNone(Landmark pit) {
    if (fovea.isEmpty()) {
      macula(pit, seen.disc());
    }
  }

  void ganglion(List<ThicknessMap> maps) {
    ganglion = maps;
  }

  void circle(CircleSight found) {
    circle = Optional.of(found);
  }

  void disc(DiscSight found) {
    disc = Optional.of(found);
  }

  /** Says what kind of volume it was, where that leaves something out. */
  void saidOfVolume() {
    if (disc.isPresent()) {
      return;
    }
    if (!ganglion.isEmpty()) {
      say(FindingKind.GANGLION_CELLS_ONLY, "a volume over the macula, without the whole disc");
    } else if (findings.stream().noneMatch(NerveDraft::leavesOut)) {
      say(FindingKind.NOT_A_NERVE_SCAN, "neither the fovea nor the disc's opening was found");
    }
  }

  private static boolean refuses(Finding finding) {
    return finding.kind().gravity() == FindingKind.Gravity.NOT_MEASURED;
  }

  private static boolean leavesOut(Finding finding) {
    return refuses(finding) || finding.kind().gravity() == FindingKind.Gravity.PARTLY_MEASURED;
  }

  NerveSighting sighting() {
    return sighting(start);
  }

  /**
   * Returns what was gathered.
   *
   * @param since when the work began, ns
   */
  NerveSighting sighting(long since) {
    return new NerveSighting(
        scan,
        scale.factor(),
        boundaries,
        circle,
        disc,
        fovea,
        ganglion,
        seen,
        findings,
        quality,
        looked - since,
        System.nanoTime() - looked);
  }
}
