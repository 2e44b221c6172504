package org.isopach.job;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;

/**
 * Follows one eye through its visits: keeps the scans of the baseline visit and compares every scan
 * of another visit with the one most like it. Never holds more than the baseline visit.
 */
final class EyeChanges {
  /** Compares two scans that have a place each. */
  @FunctionalInterface
  interface Comparer {
    ScanChange compare(MeasuredScan baseline, MeasuredScan followUp) throws InterruptedException;
  }

  private final EyeVisits eye;
  private final Optional<Visit> baseline;
  private final Comparer comparer;
  private final List<MeasuredScan> kept = new ArrayList<>();

  EyeChanges(EyeVisits eye, Optional<Visit> baseline, Comparer comparer) {
    this.eye = eye;
    this.baseline = baseline;
    this.comparer = comparer;
  }

  /** Returns what is to be said before any scan is measured. */
  List<Finding> outlook() {
    List<Finding> findings = new ArrayList<>();
    if (eye.eye().isEmpty()) {
      return findings;
    }
    if (baseline.isEmpty() && !eye.firstIsKnown()) {
      findings.add(
          new Finding(
              FindingKind.VISIT_ORDER_UNKNOWN,
              eye.words(),
              "no change is given: which visit came first is not known"));
    } else if (baseline.isEmpty()) {
      findings.add(
          new Finding(
              FindingKind.NO_BASELINE, eye.words(), "no scan of the eye in the baseline study"));
    } else if (eye.visits().size() == 1) {
      findings.add(new Finding(FindingKind.NO_BASELINE, eye.words(), "the eye has one visit"));
    }
    if (eye.visits().size() > 1 && eye.visits().stream().anyMatch(Visit::hasUnknownTime)) {
      findings.add(
          new Finding(
              FindingKind.DATE_UNKNOWN, eye.words(), "a scan does not say when it was made"));
    }
    return findings;
  }

  /** Takes the next scan; those of the baseline visit must come first. */
  ScanChange next(MeasuredScan scan) throws InterruptedException {
    if (eye.eye().isEmpty() || baseline.isEmpty() || scan.place().isEmpty()) {
      return ScanChange.NONE;
    }
    if (baseline.get().contains(scan.scan())) {
      kept.add(scan);
      return ScanChange.NONE;
    }
    Optional<MeasuredScan> partner =
        kept.stream().min(Comparator.comparingDouble(one -> unlikeness(one.scan(), scan.scan())));
    if (partner.isEmpty()) {
      return ScanChange.refused(
          new Finding(
              FindingKind.NO_BASELINE,
              scan.scan().document().location(),
              "no map could be made from the baseline visit"));
    }
    ScanChange change = comparer.compare(partner.get(), scan);
    return kept.size() == 1 ? change : change.and(chosen(partner.get(), scan));
  }

  private Finding chosen(MeasuredScan partner, MeasuredScan scan) {
    return new Finding(
        FindingKind.BASELINE_CHOSEN,
        scan.scan().document().location(),
        "the baseline visit has "
            + kept.size()
            + " scans of this eye; compared with the one most like in pattern, "
            + partner.scan().document().location());
  }

  /** How unlike two scan patterns are: the figure first, then the density of frames. */
  static double unlikeness(OctScan a, OctScan b) {
    double figure = a.path().orElseThrow().pattern() == b.path().orElseThrow().pattern() ? 0 : 1e6;
    double frames = Math.abs(Math.log((double) a.size().frames() / b.size().frames()));
    double ascans = Math.abs(Math.log((double) a.size().ascans() / b.size().ascans()));
    return figure + frames + ascans;
  }
}
