package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.SplittableRandom;
import java.util.function.DoubleSupplier;
import java.util.function.DoubleUnaryOperator;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.TrendFitter;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/** Slopes over five years of half-yearly visits, drawn from the noise found and rendered. */
final class TrendPart {
  private static final int EYES = 10;
  private static final int APART = 3;
  private static final int TRIALS = 4000;
  private static final int VISITS = 11;
  private static final int GLOBAL = 4;
  private static final double SLOPE = -1;
  private static final double LEAST = 0.93;
  private static final double MOST = 0.97;
  private static final AgeSlope NO_AGEING =
      new AgeSlope(
          NerveBench.FIBRES.name(), "global", OptionalDouble.empty(), "", "", "not asked for");

  private final NerveBench bench;
  private final Repeats repeats;
  private final List<Long> eyes;

  TrendPart(NerveBench bench, Repeats repeats, NerveSeeds seeds) {
    this.bench = bench;
    this.repeats = repeats;
    this.eyes = seeds.apart(APART, EYES);
  }

  void addTo(Markdown page) throws InterruptedException {
    page.heading(2, "Slope of −1 µm per year")
        .paragraph(
            "11 visits, half a year apart. Coverage is the share of 95 % intervals that hold the"
                + " true slope. First "
                + TRIALS
                + " courses each, drawn from the noise found in pairs of rendered scans of eyes that"
                + " did not change ("
                + repeats.words()
                + "): Gaussian with the spread found, and differences of the pairs themselves over"
                + " √2, with either sign. Then "
                + NerveSeeds.words(eyes)
                + ", rendered and measured at all 11 visits, scans "
                + Aim.TRACKED.words()
                + ", the layer thinner by 1 µm each year all round; the true slope of a place is"
                + " that of the true profile on the circles that were scanned. Intervals of shares"
                + " are Wilson's at 95 %; the quadrants of an eye count one by one.");
    BarTable table = new BarTable();
    for (Aim aim : Aim.values()) {
      drawn(table, aim);
    }
    rendered(table);
    table.addTo(page);
  }

  private void drawn(BarTable table, Aim aim) throws InterruptedException {
    double sd = repeats.sdUm(aim, GLOBAL);
    String name = "global mean, " + aim.name().toLowerCase(Locale.ROOT) + ": ";
    table.told(name + "spread of one scan", Markdown.number(sd, 2) + " µm");
    SplittableRandom random = new SplittableRandom(5);
    coverage(table, name + "drawn Gaussian", covered(sd, random::nextGaussian));
    List<Double> found =
        repeats.meansUm(aim, GLOBAL).stream()
            .map(two -> (two[1] - two[0]) / Math.sqrt(2) / sd)
            .toList();
    coverage(
        table,
        name + "drawn from the pairs",
        covered(
            sd, () -> (random.nextBoolean() ? 1 : -1) * found.get(random.nextInt(found.size()))));
  }

  private static void coverage(BarTable table, String name, Share share) {
    table.row(
        name + ", coverage",
        share.words(),
        "93 to 97 %",
        share.value() >= LEAST && share.value() <= MOST);
  }

  /** Returns how many intervals hold the slope, of courses with noise of a spread. */
  static Share covered(double sdUm, DoubleSupplier noise) {
    int hits = 0;
    for (int i = 0; i < TRIALS; i++) {
      double[] um = course(year -> 95 + SLOPE * year);
      for (int v = 0; v < VISITS; v++) {
        um[v] += sdUm * noise.getAsDouble();
      }
      hits += fit(um, sdUm).slopeInterval().contains(SLOPE) ? 1 : 0;
    }
    return new Share(hits, TRIALS);
  }

  private static double[] course(DoubleUnaryOperator um) {
    double[] values = new double[VISITS];
    for (int v = 0; v < VISITS; v++) {
      values[v] = um.applyAsDouble(v / 2.0);
    }
    return values;
  }

  private static LinearTrend fit(double[] um, double sdUm) {
    return TrendFitter.fit("global", course(year -> year), um, NO_AGEING, OptionalDouble.of(sdUm))
        .line()
        .orElseThrow();
  }

  /** Found and true means of the places of an eye at its visits; empty when a scan was refused. */
  private record Course(List<double[]> found, List<double[]> truth) {}

  private void rendered(BarTable table) throws InterruptedException {
    double[] sd = new double[GLOBAL + 1];
    for (int place = 0; place <= GLOBAL; place++) {
      sd[place] = repeats.sdUm(Aim.TRACKED, place);
    }
    List<Course> courses = new ArrayList<>();
    bench.each("courses of 11 scans", eyes, this::course).forEach(c -> c.ifPresent(courses::add));
    table.told(
        "rendered courses with a refused scan", Integer.toString(eyes.size() - courses.size()));
    places(table, "rendered, global mean", courses, sd, GLOBAL, GLOBAL);
    places(table, "rendered, quadrants", courses, sd, 0, GLOBAL - 1);
  }

  private static void places(
      BarTable table, String name, List<Course> courses, double[] sd, int from, int to) {
    List<Double> errors = new ArrayList<>();
    int hits = 0;
    for (Course course : courses) {
      for (int place = from; place <= to; place++) {
        LinearTrend trend = fit(course.found().get(place), sd[place]);
        double truth = fit(course.truth().get(place), sd[place]).slope();
        errors.add(trend.slope() - truth);
        hits += trend.slopeInterval().contains(truth) ? 1 : 0;
      }
    }
    Errors all = new Errors(errors);
    table.told(
        name + ", error of the slope",
        "mean absolute "
            + Markdown.number(all.meanAbsolute(), 3)
            + " µm/year (bias "
            + Markdown.number(all.bias(), 3)
            + ", worst "
            + Markdown.number(all.worst(), 3)
            + ", N "
            + all.count()
            + ")");
    table.told(name + ", coverage", new Share(hits, errors.size()).words());
  }

  private Optional<Course> course(long seed) throws InterruptedException {
    List<double[]> found = new ArrayList<>();
    List<double[]> truth = new ArrayList<>();
    for (int place = 0; place <= GLOBAL; place++) {
      found.add(new double[VISITS]);
      truth.add(new double[VISITS]);
    }
    for (int v = 0; v < VISITS; v++) {
      double lossUm = -SLOPE * v / 2.0;
      PhantomScan scan =
          PhantomScan.of(
              NerveVisits.of(seed, v, Aim.TRACKED, head -> head.withLoss(lossUm)),
              ScanPlan.nerveCircle());
      Optional<CircleProfile> profile = bench.measure(scan).profile();
      if (profile.isEmpty()) {
        return Optional.empty();
      }
      NerveTruth nerve = scan.truth().nerve().orElseThrow();
      fill(found, v, profile.get());
      double[] um = nerve.profileUm(profile.get().centre(), profile.get().diameterMm());
      fill(truth, v, ProfileScore.expected(profile.get(), um));
    }
    return Optional.of(new Course(found, truth));
  }

  private static void fill(List<double[]> places, int visit, CircleProfile profile) {
    List<Double> means = ProfileScore.meansUm(profile, ArcSchemes.QUADRANTS);
    for (int place = 0; place < places.size(); place++) {
      places.get(place)[visit] = means.get(place);
    }
  }
}
