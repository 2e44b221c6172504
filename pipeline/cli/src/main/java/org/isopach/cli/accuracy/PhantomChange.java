package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
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
import org.isopach.job.NoiseModel;
import org.isopach.job.ScanChange;

/**
 * Pairs of rendered and measured phantom scans, judged by the noise of repeats of other phantoms.
 */
final class PhantomChange {
  private static final long REPEAT_SEED = 46_000;
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

  /**
   * What came of it.
   *
   * @param noise by layer
   * @param still pairs without a change
   * @param swollen the same eyes with a swelling
   * @param refusals why pairs were refused
   */
  record Result(
      Map<Layer, RepeatNoise> noise,
      List<ChangeOutcome> still,
      List<ChangeOutcome> swollen,
      List<String> refusals) {}

  private record Judged(
      List<ChangeOutcome> still, List<ChangeOutcome> swollen, List<String> refusals) {}

  /** Judges so many eyes by so many pairs of repeats. */
  Result run(int repeats, int eyes) throws InterruptedException {
    Map<Layer, RepeatNoise> noise = noise(repeats);
    NoiseModel model =
        layer -> noise.getOrDefault(layer, RepeatNoise.unknown(layer, "not measured"));
    List<Callable<Judged>> work = new ArrayList<>();
    for (int i = 0; i < eyes; i++) {
      long seed = EYE_SEED + i;
      work.add(() -> judge(seed, model));
    }
    List<ChangeOutcome> still = new ArrayList<>();
    List<ChangeOutcome> swollen = new ArrayList<>();
    List<String> refusals = new ArrayList<>();
    for (Judged judged : chain.all(progress.watching("eyes scanned three times", work))) {
      still.addAll(judged.still());
      swollen.addAll(judged.swollen());
      refusals.addAll(judged.refusals());
    }
    return new Result(noise, still, swollen, refusals);
  }

  private Map<Layer, RepeatNoise> noise(int repeats) throws InterruptedException {
    List<Callable<LaidVisits>> work = new ArrayList<>();
    for (int i = 0; i < repeats; i++) {
      PhantomParameters eye = PhantomParameters.draw(REPEAT_SEED + i);
      long again = SECOND_SCAN + REPEAT_SEED + i;
      work.add(() -> chain.lay(measured(eye), measured(eye.rescanned(again))));
    }
    Map<Layer, RepeatNoiseEstimator> estimators = new LinkedHashMap<>();
    for (LaidVisits laid : chain.all(progress.watching("pairs of repeats", work))) {
      for (RepeatPair pair : laid.pairs()) {
        Layer layer = pair.compared().table().layer();
        estimators.computeIfAbsent(layer, PhantomChange::estimator).add(pair);
      }
    }
    Map<Layer, RepeatNoise> noise = new LinkedHashMap<>();
    estimators.forEach((layer, estimator) -> noise.put(layer, estimator.finish()));
    return noise;
  }

  private static RepeatNoiseEstimator estimator(Layer layer) {
    return new RepeatNoiseEstimator(layer, NoiseSource.SAME_DAY_REPEATS, 1, new SectorTabulator());
  }

  private MeasuredScan measured(PhantomParameters parameters) throws InterruptedException {
    return chain.measure(PhantomScan.of(parameters, ScanPlan.typical()).scan());
  }

  private Judged judge(long seed, NoiseModel noise) throws InterruptedException {
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
    return new Judged(
        outcomes(first, baseline, second, noise, Optional.empty(), refusals),
        outcomes(first, baseline, third, noise, Optional.of(place), refusals),
        refusals);
  }

  /** Evenly within 2 mm of the fovea. */
  static ChangeOutcome.Place place(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double r = FARTHEST_MM * Math.sqrt(random.nextDouble());
    double angle = 2 * Math.PI * random.nextDouble();
    return new ChangeOutcome.Place(r * Math.cos(angle), r * Math.sin(angle));
  }

  private List<ChangeOutcome> outcomes(
      PhantomScan first,
      MeasuredScan baseline,
      PhantomScan later,
      NoiseModel noise,
      Optional<ChangeOutcome.Place> swelling,
      List<String> refusals)
      throws InterruptedException {
    ScanChange change = chain.judgeWhenMapped(baseline, chain.measure(later.scan()), noise);
    change.findings().forEach(finding -> refusals.add(finding.detail()));
    List<ChangeOutcome> outcomes = new ArrayList<>();
    for (ScanChange.LayerChange layer : change.layers()) {
      Layer of = layer.change().table().layer();
      Map<String, Double> before = SectorTruth.of(first.truth(), of);
      Map<String, Double> truth = new LinkedHashMap<>();
      SectorTruth.of(later.truth(), of)
          .forEach((sector, um) -> truth.put(sector, um - before.get(sector)));
      outcomes.add(
          ChangeOutcome.of(
              layer.change().table(), layer.change().regions(), layer.mask(), truth, swelling));
    }
    return outcomes;
  }

  /** Returns the layers that are judged, in the order of the page. */
  static List<Layer> layers() {
    return LayerCatalogue.WHOLE_RETINA;
  }
}
