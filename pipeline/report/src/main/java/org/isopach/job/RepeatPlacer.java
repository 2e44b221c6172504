package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.finding.Finding;

/**
 * Puts the scans of one session in place against its first repeat: the earliest scan with which a
 * later one can be compared. Holds no more scans than have no partner yet.
 */
final class RepeatPlacer {
  private final Eye eye;
  private final ScanComparer comparer;
  private final List<MeasuredScan> waiting = new ArrayList<>();
  private final Map<String, Finding> refused = new LinkedHashMap<>();
  private Optional<MeasuredScan> first = Optional.empty();
  private Optional<RepeatTally.Session> session = Optional.empty();

  RepeatPlacer(Eye eye, ScanComparer comparer) {
    this.eye = eye;
    this.comparer = comparer;
  }

  /** Takes the next scan in the order of time; it must have been mapped. */
  void take(MeasuredScan scan) throws InterruptedException {
    List<MeasuredScan> partners = first.map(List::of).orElse(List.copyOf(waiting));
    for (MeasuredScan partner : partners) {
      ScanChange change = comparer.compare(partner, scan);
      if (!change.layers().isEmpty()) {
        accept(partner, scan, change);
        return;
      }
      for (Finding why : change.findings()) {
        refused.putIfAbsent(location(partner), about(partner, why));
        refused.putIfAbsent(location(scan), about(scan, why));
      }
    }
    if (first.isEmpty()) {
      waiting.add(scan);
    }
  }

  private void accept(MeasuredScan partner, MeasuredScan scan, ScanChange change) {
    if (first.isEmpty()) {
      first = Optional.of(partner);
      session = Optional.of(new RepeatTally.Session(eye, partner));
      waiting.clear();
    }
    refused.remove(location(partner));
    refused.remove(location(scan));
    session.orElseThrow().add(scan.scan().identity(), change);
  }

  /** Returns the session so far, with one scan when none could be compared; empty without scans. */
  Optional<RepeatTally.Session> session() {
    return session.or(
        () -> waiting.stream().findFirst().map(scan -> new RepeatTally.Session(eye, scan)));
  }

  /** Returns why scans take no part, one finding for each. */
  List<Finding> findings() {
    return List.copyOf(refused.values());
  }

  private static Finding about(MeasuredScan scan, Finding why) {
    return new Finding(why.kind(), location(scan), "left out of the repeats; " + why.detail());
  }

  private static String location(MeasuredScan scan) {
    return scan.scan().document().location();
  }
}
