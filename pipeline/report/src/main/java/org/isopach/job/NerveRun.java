package org.isopach.job;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.scan.OctScan;

/**
 * Measures the nerve of one visit after the other within a run: looks at each scan, then at what
 * they tell one another, writes what belongs to them, keeps the books.
 */
final class NerveRun {
  private final NerveMeasurer measurer;
  private final NerveFinisher finisher;
  private final NerveFiles files;
  private final RunLedger ledger;
  private final JobListener listener;
  private final NerveBook book = new NerveBook();

  NerveRun(
      NerveMeasurer measurer,
      NerveFinisher finisher,
      NerveFiles files,
      RunLedger ledger,
      JobListener listener) {
    this.measurer = measurer;
    this.finisher = finisher;
    this.files = files;
    this.ledger = ledger;
    this.listener = listener;
  }

  NerveBook book() {
    return book;
  }

  /** Measures the scans of a visit; whatever goes wrong with one becomes a finding about it. */
  void measure(EyeVisits eye, Visit visit) throws InterruptedException {
    List<NerveSighting> sightings = new ArrayList<>();
    Map<String, String> outcomes = new HashMap<>();
    for (OctScan scan : visit.scans()) {
      outcomes.put(scan.document().location(), look(scan, sightings));
    }
    for (NerveScan scan : finisher.finish(sightings)) {
      String location = scan.sighting().scan().document().location();
      Attempt attempt = new Attempt(location, ledger);
      attempt.run(() -> finish(eye, scan));
      outcomes.put(location, attempt.outcome());
    }
    for (OctScan scan : visit.scans()) {
      ledger.input(scan, outcomes.get(scan.document().location()));
    }
  }

  private String look(OctScan scan, List<NerveSighting> sightings) throws InterruptedException {
    String location = scan.document().location();
    long start = System.nanoTime();
    listener.started(location);
    Attempt attempt = new Attempt(location, ledger);
    attempt.run(
        () -> {
          NerveSighting one = measurer.measure(scan);
          ledger.add(one);
          long written = System.nanoTime();
          ledger.add(files.boundaries(one));
          sightings.add(one.withoutBoundaries());
          ledger.time(
              scan.identity().sopUid(),
              one.lookNanos(),
              one.mapNanos(),
              System.nanoTime() - written);
          return one.boundaries().isPresent();
        });
    listener.finished(location, RunLedger.millis(System.nanoTime() - start));
    return attempt.outcome();
  }

  private boolean finish(EyeVisits eye, NerveScan scan) throws InterruptedException {
    ledger.add(scan);
    ledger.add(files.write(scan));
    eye.eye().ifPresent(whose -> book.add(whose, scan));
    return !scan.tables().isEmpty();
  }

  /** Draws the profiles, once all visits are known. */
  void plot() throws InterruptedException {
    for (NerveBook.Entry entry : book.profiles()) {
      Attempt attempt = new Attempt(entry.scan().sighting().scan().document().location(), ledger);
      attempt.run(
          () -> {
            ledger.add(files.plot(entry.sopUid(), ProfileScenes.of(entry, book)));
            return true;
          });
    }
  }
}
