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
 * all eyes together, else as published for the nerve fibre layer of healthy eyes.
 */
final class NerveNoise {
  private static final String POPULATION = "normal";
  private static final int LEAST_PAIRS = ProfileNoiseEstimator.LEAST_PAIRS;

  private final Map<NerveRole, Map<NerveKey, List<double[]>>> repeats = new HashMap<>();
  private final Map<NerveRole, List<double[]>> differences = new HashMap<>();

  NerveNoise(List<NerveGroup> groups) {
    for (NerveGroup group : groups) {
      for (List<NerveBook.Entry> pair : group.repeats()) {
        add(group, pair.get(0), pair.get(1));
      }
    }
  }

  private void add(NerveGroup group, NerveBook.Entry first, NerveBook.Entry second) {
    Map<NerveKey, List<double[]>> own =
        repeats.computeIfAbsent(group.role(), role -> new HashMap<>());
    for (NerveValue value : group.table(first).values()) {
      Optional<NerveValue> other = group.table(second).value(value.key());
      if (value.value().isPresent() && other.filter(o -> o.value().isPresent()).isPresent()) {
        own.computeIfAbsent(value.key(), key -> new ArrayList<>())
            .add(new double[] {value.value().getAsDouble(), other.get().value().getAsDouble()});
      }
    }
    if (group.role() != NerveRole.MACULA_VOLUME) {
      double[] a = NerveGroup.profile(first);
      double[] b = ProfileTurn.onto(a, NerveGroup.profile(second));
      for (int i = 0; i < a.length; i++) {
        b[i] -= a[i];
      }
      differences.computeIfAbsent(group.role(), role -> new ArrayList<>()).add(b);
    }
  }

  /** Returns the noise of a value of one scan, or empty where it is not known. */
  Optional<SectorNoise> of(NerveRole role, NerveKey key) {
    List<double[]> own = repeats.getOrDefault(role, Map.of()).getOrDefault(key, List.of());
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
    return key.measure() == NerveMeasure.FIBRES && role == NerveRole.CIRCLE
        ? PublishedNerveNoise.of(key.sector(), POPULATION)
        : Optional.empty();
  }

  /** Returns the noise of a profile's samples; empty without enough repeats. */
  Optional<ProfileNoise> ofProfile(NerveRole role) {
    List<double[]> own = differences.getOrDefault(role, List.of());
    return own.size() < LEAST_PAIRS
        ? Optional.empty()
        : ProfileNoiseEstimator.estimate(own, NoiseSource.SAME_DAY_REPEATS, words(own.size()));
  }

  private static String words(int pairs) {
    return pairs + " pairs of scans of one day";
  }
}
