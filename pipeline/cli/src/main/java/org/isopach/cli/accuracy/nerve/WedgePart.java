package org.isopach.cli.accuracy.nerve;

import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import java.util.function.UnaryOperator;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DefectFinder;
import org.isopach.analysis.nerve.ProfileChange;
import org.isopach.analysis.nerve.ProfileDefect;
import org.isopach.analysis.nerve.ProfileNoise;
import org.isopach.analysis.nerve.ProfileTurn;
import org.isopach.analysis.stat.CannotEstimateException;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.NerveHead;
import org.isopach.fixtures.phantom.NerveTruth;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.fixtures.phantom.WedgeDefect;

/** A bundle lost between two visits: is it found, and where; and what is found where none is. */
final class WedgePart {
  private static final int EYES = 40;
  private static final int APART = 2;
  private static final double DEPTH_UM = 20;
  private static final double WIDTH_DEGREES = 15;
  private static final double PLACED_DEGREES = 5;
  private static final double SHARE = 0.95;

  /** One eye: what was found of its wedge, and of nothing; empty when a scan was refused. */
  private record Trial(Optional<WedgeScore> wedge, Optional<Integer> inVain) {}

  private final NerveBench bench;
  private final Repeats repeats;
  private final List<Long> eyes;

  WedgePart(NerveBench bench, Repeats repeats, NerveSeeds seeds) {
    this.bench = bench;
    this.repeats = repeats;
    this.eyes = seeds.apart(APART, EYES);
  }

  void addTo(Markdown page) throws InterruptedException {
    page.heading(2, "A bundle lost between two visits")
        .paragraph(
            NerveSeeds.words(eyes)
                + ", healthy at the first circle scan; at the second a wedge of 20 µm depth and 15"
                + " degrees width (between the places of half the depth) is lost at an angle drawn"
                + " evenly round the circle; at a third nothing is lost since the first. The noise"
                + " of single angles is estimated, as a job does, from pairs of scans of other eyes"
                + " ("
                + repeats.words()
                + "). The second profile is turned onto the first, as a job does. The true middle is"
                + " that of the true loss on the first circle. Found is a wedge when a stretch that was found covers its middle. The share asked for ("
                + Markdown.percent(SHARE, 0)
                + ") is ours; the intervals of shares are Wilson's at 95 %.");
    for (Aim aim : Aim.values()) {
      addTo(page, aim);
    }
  }

  private void addTo(Markdown page, Aim aim) throws InterruptedException {
    ProfileNoise noise = repeats.ofProfile(aim);
    DefectFinder finder = new DefectFinder(noise.ofDifference(), NerveTruth.SAMPLES);
    String what = "wedges, " + aim.name();
    List<Trial> trials = bench.each(what, eyes, seed -> trial(seed, aim, noise, finder));
    page.paragraph("Second scan " + aim.words() + ".");
    List<WedgeScore> wedges = trials.stream().flatMap(one -> one.wedge().stream()).toList();
    List<Integer> inVain = trials.stream().flatMap(one -> one.inVain().stream()).toList();
    Errors placed = errors(wedges, WedgeScore::placedDegrees);
    Share within = new Share(placed.within(PLACED_DEGREES), eyes.size());
    BarTable table = new BarTable();
    table
        .told(
            "noise of one profile's sample",
            Markdown.number(noise.localSdUm(), 2)
                + " µm local, over "
                + Markdown.number(noise.correlationDegrees(), 1)
                + " degrees; "
                + Markdown.number(noise.sharedSdUm(), 2)
                + " µm shared")
        .told("scans refused", Integer.toString(eyes.size() - wedges.size()))
        .told(
            "wedge found",
            new Share(wedges.stream().filter(WedgeScore::found).count(), eyes.size()).words())
        .row(
            "wedge found and placed within 5 degrees",
            within.words(),
            "≥ " + Markdown.percent(SHARE, 0),
            within.value() >= SHARE)
        .errors("its place, where found", placed, 2, "degrees", PLACED_DEGREES)
        .told("its greatest depth, where found (true 20 µm)", mean(wedges, WedgeScore::depthUm))
        .told("its width, where found (true 15 degrees)", mean(wedges, WedgeScore::widthDegrees))
        .told(
            "eyes with a find besides the wedge",
            new Share(wedges.stream().filter(one -> one.besides() > 0).count(), wedges.size())
                .words())
        .told(
            "unchanged eyes with a find (5 % by definition)",
            new Share(inVain.stream().filter(count -> count > 0).count(), inVain.size()).words())
        .addTo(page);
  }

  private static Errors errors(List<WedgeScore> wedges, ToDoubleFunction<WedgeScore> figure) {
    return new Errors(
        wedges.stream().filter(WedgeScore::found).mapToDouble(figure).boxed().toList());
  }

  private static String mean(List<WedgeScore> wedges, ToDoubleFunction<WedgeScore> figure) {
    Errors all = errors(wedges, figure);
    return "mean "
        + Markdown.number(all.bias(), 1)
        + " (SD "
        + Markdown.number(all.sd(), 1)
        + ", N "
        + all.count()
        + ")";
  }

  private Trial trial(long seed, Aim aim, ProfileNoise noise, DefectFinder finder)
      throws InterruptedException {
    double centre = 360 * new SplittableRandom(seed).nextDouble();
    WedgeDefect wedge = new WedgeDefect(centre, WIDTH_DEGREES, DEPTH_UM);
    Optional<CircleProfile> first =
        bench.circle(NerveVisits.of(seed, 0, aim, UnaryOperator.identity()));
    PhantomScan second = scan(seed, 1, aim, head -> head.withWedge(wedge));
    Optional<CircleProfile> lost = bench.measure(second).profile();
    Optional<CircleProfile> same =
        bench.circle(NerveVisits.of(seed, 2, aim, UnaryOperator.identity()));
    Optional<WedgeScore> score = Optional.empty();
    if (first.isPresent() && lost.isPresent()) {
      PhantomScan unhurt = scan(seed, 0, aim, UnaryOperator.identity());
      PhantomScan hurt = scan(seed, 0, aim, head -> head.withWedge(wedge));
      score =
          Optional.of(
              WedgeScore.of(
                  find(first.get(), lost.get(), noise, finder), lossUm(unhurt, hurt, first.get())));
    }
    Optional<Integer> inVain =
        first.isPresent() && same.isPresent()
            ? Optional.of(find(first.get(), same.get(), noise, finder).size())
            : Optional.empty();
    return new Trial(score, inVain);
  }

  private static PhantomScan scan(long seed, int visit, Aim aim, UnaryOperator<NerveHead> change) {
    return PhantomScan.of(NerveVisits.of(seed, visit, aim, change), ScanPlan.nerveCircle());
  }

  /** Searches as a job does that compares two visits; where it says nothing, nothing is found. */
  private static List<ProfileDefect> find(
      CircleProfile before, CircleProfile after, ProfileNoise noise, DefectFinder finder) {
    double[] earlier = Repeats.um(before);
    double[] later = ProfileTurn.onto(earlier, Repeats.um(after));
    try {
      return finder.find(ProfileChange.of(earlier, later, noise).changesUm());
    } catch (CannotEstimateException e) {
      return List.of();
    }
  }

  private static double[] lossUm(PhantomScan unhurt, PhantomScan hurt, CircleProfile on) {
    NerveTruth before = unhurt.truth().nerve().orElseThrow();
    NerveTruth after = hurt.truth().nerve().orElseThrow();
    double[] loss = before.profileUm(on.centre(), on.diameterMm());
    double[] left = after.profileUm(on.centre(), on.diameterMm());
    for (int i = 0; i < loss.length; i++) {
      loss[i] -= left[i];
    }
    return loss;
  }
}
