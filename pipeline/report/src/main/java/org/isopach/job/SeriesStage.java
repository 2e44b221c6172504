package org.isopach.job;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;

/** Measures the scans of one eye after the other and gathers those that stand for a visit. */
final class SeriesStage {
  private final ScanRun run;
  private final ScanComparer comparer;
  private final NerveStage nerve;
  private final RunLedger ledger;
  private long compareNanos;

  SeriesStage(ScanRun run, ScanComparer comparer, NerveStage nerve, RunLedger ledger) {
    this.nerve = nerve;
    this.run = run;
    this.comparer = comparer;
    this.ledger = ledger;
  }

  /** Returns the time spent so far on putting visits on one another. */
  long compareNanos() {
    return compareNanos;
  }

  /** Measures all scans of an eye; empty when they cannot make a series, which is then said. */
  Optional<SeriesGatherer> follow(EyeVisits eye) throws InterruptedException {
    Optional<SeriesGatherer> gathered = gathered(eye);
    nerve.finish(eye);
    return gathered;
  }

  private Optional<SeriesGatherer> gathered(EyeVisits eye) throws InterruptedException {
    List<DatedVisit> visits = DatedVisit.of(eye);
    boolean nameless = eye.eye().filter(one -> !one.patientId().isEmpty()).isEmpty();
    if (eye.eye().isPresent() && nameless) {
      exclude(eye.words(), "the scans name no patient");
    }
    if (nameless || visits.isEmpty()) {
      for (OctScan scan : eye.scansFrom(Optional.empty())) {
        measure(scan, measured -> {});
        sayUndated(scan, nameless);
      }
      return Optional.empty();
    }
    if (visits.size() > 1 && visits.get(0).time().equals(visits.get(1).time())) {
      ledger.add(
          new Finding(
              FindingKind.VISIT_ORDER_UNKNOWN,
              eye.words(),
              "two visits share the earliest time; the series begins with study "
                  + visits.get(0).scans().get(0).identity().studyUid()));
    }
    SeriesGatherer gatherer = new SeriesGatherer(eye.eye().orElseThrow(), comparer);
    Set<String> done = new HashSet<>();
    for (DatedVisit visit : visits) {
      follow(visit, gatherer);
      visit.scans().forEach(scan -> done.add(scan.document().location()));
    }
    for (OctScan scan : eye.scansFrom(Optional.empty())) {
      if (done.add(scan.document().location())) {
        measure(scan, measured -> {});
        sayUndated(scan, false);
      }
    }
    return Optional.of(gatherer);
  }

  private void sayUndated(OctScan scan, boolean said) {
    if (!said && scan.identity().acquired().isEmpty()) {
      exclude(scan.document().location(), "when it was made is not known");
    }
  }

  private void exclude(String subject, String why) {
    ledger.add(new Finding(FindingKind.SERIES_EXCLUDED, subject, "not in the series: " + why));
  }

  /** The first scan of a visit that can be mapped stands for it. */
  private void follow(DatedVisit visit, SeriesGatherer gatherer) throws InterruptedException {
    Taker taker = new Taker(visit, gatherer);
    for (OctScan scan : visit.scans()) {
      measure(scan, taker::take);
    }
    if (!taker.taken && !taker.copy) {
      ScanIdentity first = visit.scans().get(0).identity();
      gatherer.missed(first, taker.whyNot(visit.scans().get(0)));
    }
  }

  private void measure(OctScan scan, ScanRun.Use use) throws InterruptedException {
    if (nerve.took(scan)) {
      return;
    }
    run.measure(
        scan,
        measured -> {
          long start = System.nanoTime();
          use.of(measured);
          compareNanos += System.nanoTime() - start;
        });
  }

  /** Takes the first scan of a visit that can be taken. */
  private final class Taker {
    private final DatedVisit visit;
    private final SeriesGatherer gatherer;
    private boolean taken;
    private boolean copy;

    Taker(DatedVisit visit, SeriesGatherer gatherer) {
      this.visit = visit;
      this.gatherer = gatherer;
    }

    void take(MeasuredScan scan) throws InterruptedException {
      String location = scan.scan().document().location();
      if (taken || scan.layers().isEmpty()) {
        return;
      }
      Optional<String> twin = gatherer.copied(scan);
      if (twin.isPresent()) {
        copy = true;
        exclude(
            location, "it gives the very numbers of " + twin.get() + " and is taken for a copy");
        return;
      }
      taken = true;
      gatherer.next(scan).forEach(ledger::add);
      if (visit.scans().size() > 1) {
        ledger.add(
            new Finding(
                FindingKind.SERIES_SCAN_CHOSEN,
                location,
                "stands for the visit of "
                    + visit.date()
                    + " with "
                    + visit.scans().size()
                    + " scans of this eye, as the one most like the other visits' in pattern"));
      }
    }

    String whyNot(OctScan scan) {
      String location = scan.document().location();
      String said =
          ledger.findings().stream()
              .filter(finding -> finding.subject().equals(location))
              .filter(
                  finding ->
                      finding.kind().gravity() != FindingKind.Gravity.NOTE
                          || finding.kind() == FindingKind.NERVE_VOLUME)
              .map(Finding::detail)
              .distinct()
              .collect(Collectors.joining("; "));
      return said.isEmpty() ? "no map could be made of the visit" : said;
    }
  }
}
