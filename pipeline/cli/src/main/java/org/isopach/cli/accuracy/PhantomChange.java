package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import org.isopach.analysis.change.ChangeJudge;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.RepeatNoise;
import org.isopach.analysis.change.RepeatNoiseEstimator;
import org.isopach.analysis.change.RepeatPair;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.fixtures.phantom.Lesion;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.job.LaidVisits;
import org.isopach.job.MeasuredScan;

/**
 * Pairs of rendered and measured phantom scans. Each eye is judged by the noise of the unchanged
 * pairs of the next eyes, so that no eye is judged by itself and the luck of the repeats averages
 * out.
 */
final class PhantomChange {
  private static final SectorTabulator TABULATOR = new SectorTabulator();
  private static final long EYE_SEED = 47_000;
  private static final long SECOND_SCAN = 700_000;
  private static final long THIRD_SCAN = 710_000;
  private static final double SWELLING_UM = 15;
  private static final double SWELLING_MM = 1;
  private static final double FARTHEST_MM = 2;

  private final Chain chain;
  private final Progress progress;

  PhantomChange(Chain chain, Progress progress) {
    this.chain = chain;
    this.progress = progress;
  }

  /** One layer of two scans laid on one another, and the true change in µm by sector. */
  record Case(RepeatPair pair, Map<String, Double> truth) {
    Layer layer() {
      return pair.compared().table().layer();
    }
  }

  /** One eye: two scans without a change, and a swelling at a place in the third. */
  record EyePairs(
      List<Case> still, List<Case> swollen, ChangeOutcome.Place place, List<String> refusals) {}

  /**
   * What came of it.
   *
   * @param noise of all eyes together, by layer
   * @param still pairs without a change
   * @param swollen the same eyes with a swelling
   * @param refusals why pairs were refused
   */
  record Result(
      Map<Layer, RepeatNoise> noise,
      List<ChangeOutcome> still,
      List<ChangeOutcome> swollen,
      List<String> refusals) {}

  /** Judges so many eyes, each by so many pairs of repeats of others. */
  Result run(int repeats, int eyes) throws InterruptedException {
    List<Callable<EyePairs>> work = new ArrayList<>();
    for (int i = 0; i < eyes; i++) {
      long seed = EYE_SEED + i;
      work.add(() -> eye(seed));
    }
    return judge(chain.all(progress.watching("eyes scanned three times", work)), repeats);
  }

  static Result judge(List<EyePairs> eyes, int repeats) {
    ChangeJudge judge = new ChangeJudge(TABULATOR);
    List<ChangeOutcome> still = new ArrayList<>();
    List<ChangeOutcome> swollen = new ArrayList<>();
    List<String> refusals = new ArrayList<>();
    for (int i = 0; i < eyes.size(); i++) {
      List<EyePairs> others = new ArrayList<>();
      for (int k = 1; k <= Math.min(repeats, eyes.size() - 1); k++) {
        others.add(eyes.get((i + k) % eyes.size()));
      }
      Map<Layer, RepeatNoise> noise = noise(others);
      EyePairs eye = eyes.get(i);
      eye.still().forEach(one -> still.add(outcome(judge, one, noise, Optional.empty())));
      eye.swollen()
          .forEach(one -> swollen.add(outcome(judge, one, noise, Optional.of(eye.place()))));
      refusals.addAll(eye.refusals());
    }
    return new Result(noise(eyes), still, swollen, refusals);
  }

  private static ChangeOutcome outcome(
      ChangeJudge judge,
      Case one,
      Map<Layer, RepeatNoise> noise,
      Optional<ChangeOutcome.Place> swelling) {
    RepeatNoise known =
        noise.getOrDefault(one.layer(), RepeatNoise.unknown(one.layer(), "not measured"));
    ChangeJudge.Judged judged = judge.judge(one.pair(), known);
    return ChangeOutcome.of(judged.table(), judged.regions(), judged.mask(), one.truth(), swelling);
  }

  private static Map<Layer, RepeatNoise> noise(List<EyePairs> eyes) {
    Map<Layer, RepeatNoiseEstimator> estimators = new LinkedHashMap<>();
    for (EyePairs eye : eyes) {
      for (Case one : eye.still()) {
        estimators.computeIfAbsent(one.layer(), PhantomChange::estimator).add(one.pair());
      }
    }
    Map<Layer, RepeatNoise> noise = new LinkedHashMap<>();
    estimators.forEach((layer, estimator) -> noise.put(layer, estimator.finish()));
    return noise;
  }

  private static RepeatNoiseEstimator estimator(Layer layer) {
    return new RepeatNoiseEstimator(layer, NoiseSource.SAME_DAY_REPEATS, 1, TABULATOR);
  }

  private EyePairs eye(long seed) throws InterruptedException {
    PhantomParameters eye = PhantomParameters.draw(seed);
    PhantomScan first = PhantomScan.of(eye, ScanPlan.typical());
    PhantomScan second = PhantomScan.of(eye.rescanned(SECOND_SCAN + seed), ScanPlan.typical());
    ChangeOutcome.Place place = place(seed);
    Lesion swelling =
        new Lesion.Swelling(
            SWELLING_UM,
            SWELLING_MM,
            place.nasalMm(),
            place.superiorMm(),
            Lesion.Profile.GAUSSIAN,
            0);
    PhantomScan third =
        PhantomScan.of(eye.rescanned(THIRD_SCAN + seed).withLesion(swelling), ScanPlan.typical());
    MeasuredScan baseline = chain.measure(first.scan());
    List<String> refusals = new ArrayList<>();
    return new EyePairs(
        cases(first, baseline, second, refusals),
        cases(first, baseline, third, refusals),
        place,
        refusals);
  }

  /** Evenly within 2 mm of the fovea. */
  static ChangeOutcome.Place place(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double r = FARTHEST_MM * Math.sqrt(random.nextDouble());
    double angle = 2 * Math.PI * random.nextDouble();
    return new ChangeOutcome.Place(r * Math.cos(angle), r * Math.sin(angle));
  }

  private List<Case> cases(
      PhantomScan first, MeasuredScan baseline, PhantomScan later, List<String> refusals)
      throws InterruptedException {
    LaidVisits laid = chain.lay(baseline, chain.measure(later.scan()));
    laid.findings().forEach(finding -> refusals.add(finding.detail()));
    List<Case> cases = new ArrayList<>();
    for (RepeatPair pair : laid.pairs()) {
      Layer layer = pair.compared().table().layer();
      Map<String, Double> before = SectorTruth.of(first.truth(), layer);
      Map<String, Double> truth = new LinkedHashMap<>();
      SectorTruth.of(later.truth(), layer)
          .forEach((sector, um) -> truth.put(sector, um - before.get(sector)));
      cases.add(new Case(pair, truth));
    }
    return cases;
  }

  /** Returns the layers that are judged, in the order of the page. */
  static List<Layer> layers() {
    return LayerCatalogue.WHOLE_RETINA;
  }
}
