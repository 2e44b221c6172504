package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.stream.LongStream;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.PhantomScan;

/** Measures scans that nobody should take, to see whether anything breaks. */
final class TortureStudy {
  private static final int SHOWN = 20;

  private final Chain chain;
  private final Progress progress;

  TortureStudy(Chain chain, Progress progress) {
    this.chain = chain;
    this.progress = progress;
  }

  /** Measures {@code count} scans drawn from seeds that follow each other. */
  List<TortureOutcome> run(long firstSeed, int count) throws InterruptedException {
    List<Callable<TortureOutcome>> work = new ArrayList<>();
    LongStream.range(firstSeed, firstSeed + count).forEach(seed -> work.add(() -> one(seed)));
    return chain.all(progress.watching("tortured scans", work));
  }

  // Whatever goes wrong with a scan is the result of this trial.
  private TortureOutcome one(long seed) throws InterruptedException {
    TortureCase drawn = TortureCase.draw(seed);
    PhantomScan scan = drawn.scan();
    try {
      return TortureOutcome.of(drawn, chain.measure(scan.scan()));
    } catch (RuntimeException e) {
      return TortureOutcome.failed(drawn, e);
    }
  }

  /** Adds what became of the scans to a page. */
  static void addTo(Markdown page, List<TortureOutcome> outcomes) {
    List<TortureOutcome> faulty = outcomes.stream().filter(o -> o.fault().isPresent()).toList();
    Map<String, Integer> refused = new TreeMap<>();
    outcomes.forEach(o -> o.refusal().ifPresent(why -> refused.merge(why, 1, Integer::sum)));
    page.heading(2, "Torture")
        .paragraph(
            outcomes.size()
                + " scans from seed "
                + outcomes.get(0).drawn().seed()
                + " of any mixture of lesions and disturbances at 0 to 45 dB, 1 to 5 frames of 16"
                + " to 1024 A-scans and 64 to 1024 depths, straight, radial and circular. A fault"
                + " is an exception, a boundary above an inner one, a depth out of the frame, a"
                + " confidence outside of 0 to 1, or a sector's mean that is not finite. Faults: "
                + faulty.size()
                + " (bar: 0, "
                + (faulty.isEmpty() ? "met" : "**not met**")
                + "). Refused whole, with a reason: "
                + refused
                + ".");
    for (TortureOutcome one : faulty.subList(0, Math.min(SHOWN, faulty.size()))) {
      page.paragraph(
          "- seed "
              + one.drawn().seed()
              + " ("
              + one.drawn().words()
              + "): "
              + one.fault().orElseThrow());
    }
  }
}
