package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.ProfileNoise;
import org.isopach.analysis.nerve.ProfileNoiseEstimator;
import org.isopach.analysis.nerve.ProfileTurn;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.WithinSubject;

/** Pairs of circle scans of eyes that did not change, by aim; rendered when first asked for. */
final class Repeats {
  private static final int EYES = 30;
  private static final int APART = 1;

  /**
   * A pair.
   *
   * @param first its first scan
   * @param second its second scan
   */
  record Pair(CircleProfile first, CircleProfile second) {
    double[] differenceUm() {
      double[] earlier = um(first);
      double[] change = ProfileTurn.onto(earlier, um(second));
      for (int i = 0; i < change.length; i++) {
        change[i] -= earlier[i];
      }
      return change;
    }

    /** Returns both means of a quadrant (0 to 3) or of the whole (4), µm. */
    double[] meansUm(int place) {
      return new double[] {
        ProfileScore.meansUm(first, ArcSchemes.QUADRANTS).get(place),
        ProfileScore.meansUm(second, ArcSchemes.QUADRANTS).get(place)
      };
    }
  }

  static double[] um(CircleProfile profile) {
    double[] values = new double[profile.samples()];
    for (int i = 0; i < values.length; i++) {
      values[i] = profile.thicknessUm(i);
    }
    return values;
  }

  private final NerveBench bench;
  private final List<Long> eyes;
  private final Map<Aim, List<Pair>> pairs = new EnumMap<>(Aim.class);

  Repeats(NerveBench bench, NerveSeeds seeds) {
    this.bench = bench;
    this.eyes = seeds.apart(APART, EYES);
  }

  String words() {
    return NerveSeeds.words(eyes);
  }

  /** Returns the pairs of which both scans were measured. */
  List<Pair> pairs(Aim aim) throws InterruptedException {
    if (!pairs.containsKey(aim)) {
      List<Pair> found = new ArrayList<>();
      String what = "repeats, " + aim.name().toLowerCase(Locale.ROOT);
      bench.each(what, eyes, seed -> pair(seed, aim)).forEach(pair -> pair.ifPresent(found::add));
      pairs.put(aim, List.copyOf(found));
    }
    return pairs.get(aim);
  }

  /** Returns the noise of one profile, as a job finds it in repeats of one day. */
  ProfileNoise ofProfile(Aim aim) throws InterruptedException {
    List<double[]> differences = pairs(aim).stream().map(Pair::differenceUm).toList();
    return ProfileNoiseEstimator.estimate(differences, NoiseSource.SAME_DAY_REPEATS, words())
        .orElseThrow();
  }

  /** Returns the spread of one scan's mean of a quadrant (0 to 3) or of the whole (4), µm. */
  double sdUm(Aim aim, int place) throws InterruptedException {
    return WithinSubject.of(meansUm(aim, place), ConfidenceInterval.USUAL_LEVEL).sd();
  }

  /** Returns both means of every pair that has both, µm. */
  List<double[]> meansUm(Aim aim, int place) throws InterruptedException {
    return pairs(aim).stream()
        .map(pair -> pair.meansUm(place))
        .filter(two -> Double.isFinite(two[0]) && Double.isFinite(two[1]))
        .toList();
  }

  private Optional<Pair> pair(long seed, Aim aim) throws InterruptedException {
    Optional<CircleProfile> first =
        bench.circle(NerveVisits.of(seed, 0, aim, UnaryOperator.identity()));
    Optional<CircleProfile> second =
        bench.circle(NerveVisits.of(seed, 1, aim, UnaryOperator.identity()));
    return first.isEmpty() || second.isEmpty()
        ? Optional.empty()
        : Optional.of(new Pair(first.get(), second.get()));
  }
}
