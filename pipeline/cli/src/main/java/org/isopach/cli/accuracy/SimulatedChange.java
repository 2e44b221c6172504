package org.isopach.cli.accuracy;

import java.time.LocalDateTime;
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
import org.isopach.analysis.change.VisitChange;
import org.isopach.analysis.change.VisitComparer;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.SourceDocument;
import org.isopach.fixtures.phantom.EyePhantom;
import org.isopach.fixtures.phantom.PhantomParameters;

/**
 * Pairs of maps whose truth, noise and errors of place are all drawn: the anatomy of a phantom eye
 * sampled at displaced places, plus {@link NoiseField}.
 *
 * <p>Pairs come in blocks; each block has repeats of its own, of other eyes, so that the luck of
 * the repeats averages out. Nothing here is taken from what estimates.
 */
final class SimulatedChange {
  static final double PLACE_SD_MM = 0.031;
  static final double SWELLING_UM = 15;
  private static final double EYE_SPREAD = 0.15;
  private static final double MISSING = 0.2;
  private static final double MISSING_MM = 0.35;
  private static final long SEED = 48_000_000;
  private static final MapLattice LATTICE = MapLattice.centred(3, 0.05);
  private static final AxialScale AXIAL = AxialScale.ofMicrometresPerPixel(3.87);

  private final SectorTabulator tabulator = new SectorTabulator();
  private final VisitComparer comparer = new VisitComparer(tabulator);
  private final ChangeJudge judge = new ChangeJudge(tabulator);

  /** Judgements of pairs without a change, and of the same pairs with a swelling. */
  record Result(List<ChangeOutcome> still, List<ChangeOutcome> swollen) {}

  /** Returns one piece of work for each block. */
  List<Callable<Result>> blocks(int blocks, int repeats, int pairs) {
    List<Callable<Result>> work = new ArrayList<>();
    for (int block = 0; block < blocks; block++) {
      long seed = SEED + 1000L * block;
      work.add(() -> block(seed, repeats, pairs));
    }
    return work;
  }

  private Result block(long seed, int repeats, int pairs) {
    RepeatNoiseEstimator estimator =
        new RepeatNoiseEstimator(Layer.ILM_BM, NoiseSource.GIVEN_REPEATS, 1, tabulator);
    for (int i = 0; i < repeats; i++) {
      estimator.add(pair(seed + i, Optional.empty()));
    }
    RepeatNoise noise = estimator.finish();
    List<ChangeOutcome> still = new ArrayList<>();
    List<ChangeOutcome> swollen = new ArrayList<>();
    for (int i = 0; i < pairs; i++) {
      long eye = seed + 500 + i;
      ChangeOutcome.Place place = PhantomChange.place(eye);
      still.add(outcome(pair(eye, Optional.empty()), noise, Optional.empty()));
      swollen.add(outcome(pair(eye, Optional.of(place)), noise, Optional.of(place)));
    }
    return new Result(still, swollen);
  }

  private ChangeOutcome outcome(
      RepeatPair pair, RepeatNoise noise, Optional<ChangeOutcome.Place> swelling) {
    ChangeJudge.Judged judged = judge.judge(pair, noise);
    return ChangeOutcome.of(
        judged.table(), judged.regions(), judged.mask(), truth(swelling), swelling);
  }

  /** The same seed gives the same eye, the same noise and the same errors of place. */
  private RepeatPair pair(long seed, Optional<ChangeOutcome.Place> swelling) {
    PhantomParameters parameters = PhantomParameters.draw(seed);
    EyePhantom eye = new EyePhantom(parameters.laterality(), parameters.eye(), List.of());
    SplittableRandom random = new SplittableRandom(seed);
    double size = Math.exp(EYE_SPREAD * random.nextGaussian());
    ThicknessMap before = map(eye, "1", new FundusPoint(0, 0), Optional.empty(), size, random);
    FundusPoint shift =
        new FundusPoint(PLACE_SD_MM * random.nextGaussian(), PLACE_SD_MM * random.nextGaussian());
    ThicknessMap after = map(eye, "2", shift, swelling, size, random);
    VisitChange change =
        comparer.compare(
            new VisitMap(before, AXIAL), new VisitMap(after, AXIAL), EtdrsGrids.ETDRS_1_3_6, 0.9);
    return new RepeatPair((VisitChange.Compared) change, PLACE_SD_MM, Map.of(), Map.of());
  }

  private static ThicknessMap map(
      EyePhantom eye,
      String name,
      FundusPoint shift,
      Optional<ChangeOutcome.Place> swelling,
      double size,
      SplittableRandom random) {
    int sign = eye.laterality().nasalSign();
    float[] values = new float[LATTICE.cells()];
    for (int i = 0; i < values.length; i++) {
      double x = LATTICE.xMm(i % LATTICE.columns()) + shift.xMm();
      double y = LATTICE.yMm(i / LATTICE.columns()) + shift.yMm();
      double more = swelling.map(place -> swellingUm(place, sign * x, -y)).orElse(0.0);
      values[i] = (float) (eye.thicknessUm(Layer.ILM_BM, new FundusPoint(x, y)) + more);
    }
    NoiseField.addTo(values, LATTICE, size, random);
    leaveOut(values, random);
    return new ThicknessMap(
        Layer.ILM_BM,
        eye.laterality(),
        LATTICE,
        new Landmark(new FundusPoint(0, 0), Landmark.Source.FOVEAL_PIT),
        new ScanIdentity(
            "SIMULATED", name, name, name, Optional.of(LocalDateTime.of(2026, 1, 12, 9, 30))),
        new SourceDocument("simulated:" + name, "00"),
        values);
  }

  /** In one map of five a disc has no value. */
  private static void leaveOut(float[] values, SplittableRandom random) {
    boolean missing = random.nextDouble() < MISSING;
    double x = 4 * random.nextDouble() - 2;
    double y = 4 * random.nextDouble() - 2;
    for (int i = 0; missing && i < values.length; i++) {
      double away =
          Math.hypot(
              LATTICE.xMm(i % LATTICE.columns()) - x, LATTICE.yMm(i / LATTICE.columns()) - y);
      values[i] = away < MISSING_MM ? Float.NaN : values[i];
    }
  }

  /** A Gaussian, 1 mm wide at half height. */
  private static double swellingUm(ChangeOutcome.Place place, double nasal, double superior) {
    double away = Math.hypot(nasal - place.nasalMm(), superior - place.superiorMm());
    return SWELLING_UM * Math.exp(-4 * Math.log(2) * away * away);
  }

  /** Returns the mean of the swelling over every sector and the grid, by a fine polar sum. */
  private static Map<String, Double> truth(Optional<ChangeOutcome.Place> swelling) {
    Map<String, Double> means = new LinkedHashMap<>();
    double total = 0;
    double area = 0;
    for (Sector sector : EtdrsGrids.ETDRS_1_3_6.sectors()) {
      double mean = swelling.map(place -> mean(place, sector)).orElse(0.0);
      means.put(sector.name(), mean);
      total += mean * sector.areaMm2();
      area += sector.areaMm2();
    }
    means.put(SectorGrid.TOTAL, total / area);
    return means;
  }

  private static double mean(ChangeOutcome.Place place, Sector sector) {
    int steps = 60;
    double sum = 0;
    double weights = 0;
    for (int i = 0; i < steps; i++) {
      double r =
          sector.innerRadiusMm()
              + (sector.outerRadiusMm() - sector.innerRadiusMm()) * (i + 0.5) / steps;
      for (int j = 0; j < steps; j++) {
        double angle =
            Math.toRadians(sector.fromDegrees() + sector.extentDegrees() * (j + 0.5) / steps);
        sum += r * swellingUm(place, r * Math.cos(angle), r * Math.sin(angle));
        weights += r;
      }
    }
    return sum / weights;
  }
}
