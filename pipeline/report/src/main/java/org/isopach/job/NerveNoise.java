package org.isopach.job;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.nerve.ProfileNoise;
import org.isopach.analysis.nerve.ProfileNoiseEstimator;
import org.isopach.analysis.nerve.ProfileTurn;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.WithinSubject;
import org.isopach.report.normal.PublishedNerveNoise;
import org.isopach.report.table.NerveKey;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveValue;

/**
 * The test–retest noise of the nerve's values: from repeats of one day among the scans of the run,
 * all eyes together, else as published for the nerve fibre layer of healthy eyes. Pooled are scans
 * of one role whose angles are counted from one zero, round circles of about one diameter.
 */
final class NerveNoise {
  private static final String POPULATION = "normal";

  /** Said with published noise where the circle was laid into a volume. */
  static final String NOT_OF_LAID_CIRCLES =
      "not measured for circles laid into volumes by this program";

  private static final int LEAST_PAIRS = ProfileNoiseEstimator.LEAST_PAIRS;

  private final List<Pool> pools = new ArrayList<>();

  /** Repeats that tell the noise of one another. */
  private record Pool(
      NerveGroup like, Map<NerveKey, List<double[]>> values, List<double[]> differences) {
    boolean fits(NerveGroup group) {
      return like.role() == group.role() && like.sharesNoise(group);
    }
  }

  NerveNoise(List<NerveGroup> groups) {
    for (NerveGroup group : groups) {
      List<List<NerveBook.Entry>> pairs = group.repeats();
      if (!pairs.isEmpty()) {
        Pool pool = pool(group).orElseGet(() -> opened(group));
        pairs.forEach(pair -> add(pool, group, pair.get(0), pair.get(1)));
      }
    }
  }

  private Pool opened(NerveGroup group) {
    Pool pool = new Pool(group, new HashMap<>(), new ArrayList<>());
    pools.add(pool);
    return pool;
  }

  private Optional<Pool> pool(NerveGroup group) {
    return pools.stream().filter(one -> one.fits(group)).findFirst();
  }

  private static void add(
      Pool pool, NerveGroup group, NerveBook.Entry first, NerveBook.Entry second) {
    for (NerveValue value : group.table(first).values()) {
      Optional<NerveValue> other = group.table(second).value(value.key());
      if (value.value().isPresent() && other.filter(o -> o.value().isPresent()).isPresent()) {
        pool.values()
            .computeIfAbsent(value.key(), key -> new ArrayList<>())
            .add(new double[] {value.value().getAsDouble(), other.get().value().getAsDouble()});
      }
    }
    if (group.role() != NerveRole.MACULA_VOLUME) {
      double[] a = NerveGroup.profile(first);
      double[] b = ProfileTurn.onto(a, NerveGroup.profile(second));
      for (int i = 0; i < a.length; i++) {
        b[i] -= a[i];
      }
      pool.differences().add(b);
    }
  }

  /** Returns the noise of a value of one scan of a group, or empty where it is not known. */
  Optional<SectorNoise> of(NerveGroup group, NerveKey key) {
    List<double[]> own = pool(group).map(pool -> pool.values().get(key)).orElseGet(() -> List.of());
    if (own.size() >= LEAST_PAIRS) {
      WithinSubject within = WithinSubject.of(own, ConfidenceInterval.USUAL_LEVEL);
      return Optional.of(
          new SectorNoise(
              within.sd(),
              within.degreesOfFreedom(),
              0,
              0,
              NoiseSource.SAME_DAY_REPEATS,
              words(own.size())));
    }
    return key.measure() == NerveMeasure.FIBRES
        ? PublishedNerveNoise.of(key.sector(), POPULATION).map(one -> saidOf(group.role(), one))
        : Optional.empty();
  }

  /** A circle laid into a volume varies with the centre found of the opening, too. */
  private static SectorNoise saidOf(NerveRole role, SectorNoise published) {
    return role == NerveRole.CIRCLE
        ? published
        : new SectorNoise(
            published.sdUm(),
            published.degreesOfFreedom(),
            published.placeVarianceUm2(),
            published.doubtUm2(),
            published.source(),
            published.reference() + "; " + NOT_OF_LAID_CIRCLES);
  }

  /** Returns the noise of the samples of a group's profiles; empty without enough repeats. */
  Optional<ProfileNoise> ofProfile(NerveGroup group) {
    List<double[]> own = pool(group).map(Pool::differences).orElseGet(() -> List.of());
    return own.size() < LEAST_PAIRS
        ? Optional.empty()
        : ProfileNoiseEstimator.estimate(own, NoiseSource.SAME_DAY_REPEATS, words(own.size()));
  }

  private static String words(int pairs) {
    return pairs + " pairs of scans of one day";
  }
}
