package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.scan.OctScan;

/**
 * Measures the nerve within a run: looks at each scan of an eye, then at what those of a visit tell
 * one another, writes what belongs to them, keeps the books.
 */
final class NerveRun {
  private final NerveMeasurer measurer;
  private final NerveFinisher finisher;
  private final NerveFiles files;
  private final RunLedger ledger;
  private final JobListener listener;
  private final NerveBook book = new NerveBook();
  private final Map<String, List<NerveSighting>> visits = new LinkedHashMap<>();
  private final Map<String, String> outcomes = new LinkedHashMap<>();
  private final List<OctScan> alone = new ArrayList<>();

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

  /** Returns the scans measured so far. */
  NerveBook book() {
    return book;
  }

  /** Returns whether a scan is one of the nerve and of nothing else. */
  static boolean isNerveOnly(OctScan scan) {
    return scan.laterality().isPresent()
        && scan.path().map(ScanPath::pattern).filter(ScanPattern.CIRCLE::equals).isPresent();
  }

  /** Looks at a scan; whatever goes wrong becomes a finding about it. */
  void look(OctScan scan) throws InterruptedException {
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
          gather(one.withoutBoundaries());
          ledger.time(
              scan.identity().sopUid(),
              one.lookNanos(),
              one.mapNanos(),
              System.nanoTime() - written);
          return one.boundaries().isPresent();
        });
    alone.add(scan);
    outcomes.put(location, attempt.outcome());
    listener.finished(location, RunLedger.millis(System.nanoTime() - start));
  }

  /**
   * Looks at a volume whose macula was measured, and whose books are kept elsewhere. Returns
   * whether the disc was measured in it.
   */
  boolean look(MeasuredScan scan) throws InterruptedException {
    Attempt attempt = new Attempt(scan.scan().document().location(), ledger);
    return attempt.run(
        () -> {
          NerveSighting one = measurer.measure(scan);
          one.findings().forEach(ledger::add);
          gather(one.withoutBoundaries());
          return one.disc().isPresent();
        });
  }

  private void gather(NerveSighting one) {
    visits.computeIfAbsent(one.scan().identity().studyUid(), study -> new ArrayList<>()).add(one);
  }

  /** Measures what was looked at of an eye, visit by visit. */
  void finish(EyeVisits eye) throws InterruptedException {
    List<NerveSighting> all = visits.values().stream().flatMap(List::stream).toList();
    for (List<NerveSighting> visit : visits.values()) {
      for (NerveScan scan : finisher.finish(visit, all, ledger::saidOf)) {
        String location = scan.sighting().scan().document().location();
        Attempt attempt = new Attempt(location, ledger);
        attempt.run(() -> finish(eye, scan));
        outcomes.put(location, attempt.outcome());
      }
    }
    for (OctScan scan : alone) {
      ledger.input(scan, outcomes.get(scan.document().location()));
    }
    visits.clear();
    alone.clear();
    outcomes.clear();
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
