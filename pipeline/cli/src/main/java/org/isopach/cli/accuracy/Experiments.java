package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.job.MeasuredScan;
import org.isopach.job.ScanChange;

/** Renders, measures and compares phantoms. */
final class Experiments {
  private final Chain chain;
  private final Progress progress;

  Experiments(Chain chain, Progress progress) {
    this.chain = chain;
    this.progress = progress;
  }

  /** Returns a study of each eye; the first {@code changes} of them are scanned three times. */
  List<EyeStudy> eyes(List<Long> seeds, int changes) throws InterruptedException {
    List<Callable<EyeStudy>> work = new ArrayList<>();
    for (int i = 0; i < seeds.size(); i++) {
      long seed = seeds.get(i);
      boolean again = i < changes;
      work.add(() -> study(seed, again));
    }
    return run("eyes", work);
  }

  private EyeStudy study(long seed, boolean again) throws InterruptedException {
    PhantomParameters parameters = PhantomParameters.draw(seed);
    PhantomScan first = PhantomScan.of(parameters, ScanPlan.typical());
    MeasuredScan measured = chain.measure(first.scan());
    ScanScore score = ScanScore.of(seed, first, measured);
    if (!again) {
      return new EyeStudy(score, List.of(), List.of(), List.of());
    }
    List<String> refusals = new ArrayList<>();
    return new EyeStudy(
        score,
        change(seed, first, measured, ChangeTrial.rescanned(parameters, seed), refusals),
        change(seed, first, measured, ChangeTrial.swollen(parameters, seed), refusals),
        refusals);
  }

  private List<PlaceError> change(
      long seed,
      PhantomScan first,
      MeasuredScan measured,
      PhantomParameters later,
      List<String> refusals)
      throws InterruptedException {
    PhantomScan second = PhantomScan.of(later, ScanPlan.typical());
    ScanChange change = chain.compareWhenMapped(measured, chain.measure(second.scan()));
    String what = later.lesions().isEmpty() ? "rescan" : "swelling";
    change.findings().forEach(one -> refusals.add(seed + ", " + what + ": " + one.detail()));
    return ChangeTrial.errors(seed, first.truth(), second.truth(), change);
  }

  /** Returns the errors under every variation; large scans only of the first {@code large} eyes. */
  List<VariationScore> variations(List<Long> seeds, int large) throws InterruptedException {
    List<Callable<ScanScore>> work = new ArrayList<>();
    for (Variation variation : Variation.all()) {
      for (long seed : eyes(variation, seeds, large)) {
        work.add(() -> score(variation, seed));
      }
    }
    List<ScanScore> scores = run("harder and easier scans", work);
    List<VariationScore> grouped = new ArrayList<>();
    int at = 0;
    for (Variation variation : Variation.all()) {
      int count = eyes(variation, seeds, large).size();
      grouped.add(new VariationScore(variation, scores.subList(at, at + count)));
      at += count;
    }
    return grouped;
  }

  private static List<Long> eyes(Variation variation, List<Long> seeds, int large) {
    return variation.large() ? seeds.subList(0, Math.min(seeds.size(), large)) : seeds;
  }

  private ScanScore score(Variation variation, long seed) throws InterruptedException {
    PhantomParameters parameters = variation.change().apply(PhantomParameters.draw(seed));
    PhantomScan scan = PhantomScan.of(parameters, variation.plan());
    return ScanScore.of(seed, scan, chain.measure(scan.scan()));
  }

  /** Returns how much eyes differ from their mirror images. */
  List<MirrorTrial.Difference> mirrors(List<Long> seeds) throws InterruptedException {
    List<Callable<MirrorTrial.Difference>> work = new ArrayList<>();
    for (long seed : seeds) {
      work.add(
          () ->
              MirrorTrial.run(
                  chain, PhantomScan.of(PhantomParameters.draw(seed), ScanPlan.typical()).scan()));
    }
    return run("mirrored eyes", work);
  }

  private <T> List<T> run(String what, List<Callable<T>> work) throws InterruptedException {
    return chain.all(progress.watching(what, work));
  }
}
