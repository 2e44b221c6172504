package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.distribution.UniformRealDistribution;
import org.apache.commons.math3.stat.inference.KolmogorovSmirnovTest;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.CircleSampler;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalJudge;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.analysis.normal.NormalRules;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.normal.ReferenceTableFile;

/** Whether healthy phantoms fall at their percentile of the group they were drawn from. */
final class NormalPart {
  private static final String GROUP = "several-sites";
  private static final int EYES = 500;
  private static final int RENDERED = 40;
  private static final int APART = 4;
  private static final int PLACES = 5;
  private static final int GLOBAL = 4;
  private static final double LEAST_P = 0.05;
  private static final NormalEye ADULT = NormalEye.UNKNOWN.aged(50);

  private final NerveBench bench;
  private final NerveSeeds seeds;
  private final NormalJudge judge;

  NormalPart(NerveBench bench, NerveSeeds seeds) {
    this.bench = bench;
    this.seeds = seeds;
    this.judge = new NormalJudge(ReferenceTableFile.shipped().only(GROUP), NormalRules.USUAL);
  }

  void addTo(Markdown page) throws InterruptedException {
    List<Long> eyes = seeds.apart(APART, EYES);
    List<Long> rendered = seeds.first(RENDERED);
    page.heading(2, "Normal limits")
        .paragraph(
            "Healthy nerve heads are drawn with the published means and SDs of the quadrants of the"
                + " group "
                + GROUP
                + " (239 people, IOVS article 2380014), Gaussian, with one correlation between"
                + " quadrants, 0.286, which gives the circle's mean its published SD (see"
                + " [phantom.md](phantom.md)). They are placed among the same group by the"
                + " program's judge. If phantom and judge are right, percentiles are uniform from 0"
                + " to 100: the Kolmogorov-Smirnov test holds them against that. First the truth of "
                + NerveSeeds.words(eyes)
                + ", not rendered, on the circle of 3.46 mm round the opening's centre; then what is"
                + " measured in rendered circle scans of "
                + NerveSeeds.words(rendered)
                + ", the measuring error and an aim off the disc by 0.1 mm (SD) included.");
    BarTable table = new BarTable();
    List<List<Double>> truth = bench.each("true percentiles", eyes, seed -> truth(seed));
    rows(table, "truth", truth, true);
    List<List<Double>> found = new ArrayList<>();
    bench
        .each("measured percentiles", rendered, this::measured)
        .forEach(means -> means.ifPresent(found::add));
    rows(table, "measured", found, false);
    table.addTo(page);
    spread(page, truth);
    NormalTables.addTo(page, ReferenceTableFile.shipped());
  }

  private static List<Double> truth(long seed) {
    NerveTruth nerve =
        PhantomScan.of(PhantomParameters.drawNerve(seed).onDisc(0, 0), ScanPlan.nerveCircle())
            .truth()
            .nerve()
            .orElseThrow();
    List<Double> means = new ArrayList<>(nerve.quadrantMeansUm());
    means.add(nerve.globalMeanUm());
    return means;
  }

  private Optional<List<Double>> measured(long seed) throws InterruptedException {
    Optional<CircleProfile> profile = bench.circle(PhantomParameters.drawNerve(seed));
    return profile.map(one -> ProfileScore.meansUm(one, ArcSchemes.QUADRANTS));
  }

  private void rows(BarTable table, String what, List<List<Double>> eyes, boolean bar) {
    for (int place = 0; place < PLACES; place++) {
      double[] percentiles = percentiles(eyes, place);
      double p = uniform(percentiles);
      Share below = new Share(within(percentiles, 0, 5), percentiles.length);
      Share above = new Share(within(percentiles, 95, 100), percentiles.length);
      String found =
          "p = "
              + Markdown.number(p, 3)
              + ", N "
              + percentiles.length
              + "; below the 5th percentile "
              + Markdown.percent(below.value(), 1)
              + ", above the 95th "
              + Markdown.percent(above.value(), 1);
      String figure = what + ", " + name(place);
      if (bar) {
        table.row(figure, found, "p ≥ 0.05", p >= LEAST_P);
      } else {
        table.told(figure, found);
      }
    }
  }

  /** Returns the chance of a sample as uneven, were it even from 0 to 100. */
  static double uniform(double[] percentiles) {
    return percentiles.length < 2
        ? Double.NaN
        : new KolmogorovSmirnovTest()
            .kolmogorovSmirnovTest(new UniformRealDistribution(null, 0, 100), percentiles);
  }

  private static long within(double[] values, double from, double to) {
    return Arrays.stream(values).filter(v -> v >= from && v <= to).count();
  }

  private double[] percentiles(List<List<Double>> eyes, int place) {
    return eyes.stream()
        .mapToDouble(eye -> eye.get(place))
        .filter(um -> !Double.isNaN(um))
        .map(um -> percentile(um, place))
        .toArray();
  }

  private double percentile(double um, int place) {
    NormalPlace found = judge.place(um, place(place), ADULT, OptionalDouble.empty());
    if (found instanceof NormalPlace.Placed placed) {
      return placed.percentile();
    }
    throw new IllegalStateException(found.words());
  }

  private static String name(int place) {
    return place == GLOBAL ? "global" : ArcSchemes.QUADRANTS.arcs().get(place).name();
  }

  static ReferencePlace place(int place) {
    return ReferencePlace.circle(
        NerveBench.FIBRES,
        ArcSchemes.QUADRANTS.name(),
        name(place),
        CircleSampler.STANDARD_DIAMETER_MM,
        AngleZero.Kind.HORIZONTAL.code());
  }

  /** Adds mean and SD of the phantoms beside those of the group. */
  private void spread(Markdown page, List<List<Double>> eyes) {
    ReferenceTable table = ReferenceTableFile.shipped().only(GROUP);
    List<List<String>> rows = new ArrayList<>();
    for (int place = 0; place < PLACES; place++) {
      int at = place;
      Errors means = new Errors(eyes.stream().map(eye -> eye.get(at)).toList());
      table.rows().stream()
          .filter(row -> row.place().sector().equals(name(at)))
          .forEach(
              row ->
                  rows.add(
                      List.of(
                          name(at),
                          Markdown.number(row.meanUm(), 2),
                          Markdown.number(means.bias(), 2),
                          Markdown.number(row.sdUm(), 2),
                          Markdown.number(means.sd(), 2))));
    }
    page.paragraph("Mean and SD between eyes, published and of the phantoms' truth, µm:")
        .table(List.of("place", "mean, published", "phantoms", "SD, published", "phantoms"), rows);
  }
}
