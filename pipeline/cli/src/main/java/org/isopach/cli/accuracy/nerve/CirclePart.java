package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.function.LongFunction;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/** Circle scans against the true profile of the circle that was scanned. */
final class CirclePart {
  private static final int EYES = 100;
  private static final int HARD_EYES = 20;

  private final NerveBench bench;
  private final NerveSeeds seeds;

  CirclePart(NerveBench bench, NerveSeeds seeds) {
    this.bench = bench;
    this.seeds = seeds;
  }

  void addTo(Markdown page) throws InterruptedException {
    List<Long> eyes = seeds.first(EYES);
    List<Long> hard = seeds.first(HARD_EYES);
    ProfileScores typical = scores("circle scans", eyes, PhantomParameters::drawNerve);
    page.heading(2, "Circle scans")
        .paragraph(
            NerveSeeds.words(eyes)
                + ": healthy, each scanned once along 3.46 mm (1 frame of 768 A-scans, 496 depths of"
                + " 3.87 µm) under typical conditions, the scan's middle 0.1 mm (SD) off the disc"
                + " along each axis. True is the profile of the circle that was scanned, round its"
                + " own middle. Means by arcs need values on 90 % of the arc.");
    BarTable bars = typical.addTo(new BarTable());
    bars.told("scans refused", typical.refused() + " of " + eyes.size());
    bars.worst("greatest clock-hour errors: seed (µm)", eyes, typical.worstHours());
    bars.told("share of the circle that has a value", Markdown.percent(typical.coverage(), 1));
    bars.addTo(page);
    page.paragraph("By arc, µm:");
    typical.arcs(page);
    List<List<String>> rows = new ArrayList<>();
    rows.add(typical.row("typical"));
    rows.add(scores("circle scans at 22 dB", hard, seed -> drawn(seed).withSnr(22)).row("22 dB"));
    rows.add(scores("circle scans at 16 dB", hard, seed -> drawn(seed).withSnr(16)).row("16 dB"));
    ProfileScores sick =
        scores("circle scans of sick eyes", eyes, PhantomParameters::drawNerveSick);
    rows.add(sick.row("sick eyes"));
    page.paragraph(
            "Harder scans, µm. "
                + NerveSeeds.words(hard)
                + " with little signal; "
                + NerveSeeds.words(eyes)
                + " drawn sick: fibres lost, atrophy, unusual discs, steep slopes and disturbances"
                + " such as frames out of depth, at random.")
        .table(ProfileScores.header(), rows);
    BarTable ill = sick.addTo(new BarTable());
    ill.told("scans refused", sick.refused() + " of " + eyes.size());
    ill.worst("greatest clock-hour errors: seed (µm)", eyes, sick.worstHours());
    page.paragraph("The same bars held against the sick eyes, though set for typical scans:");
    ill.addTo(page);
  }

  private static PhantomParameters drawn(long seed) {
    return PhantomParameters.drawNerve(seed);
  }

  private ProfileScores scores(String what, List<Long> eyes, LongFunction<PhantomParameters> draw)
      throws InterruptedException {
    return new ProfileScores(bench.each(what, eyes, seed -> score(bench, draw.apply(seed))));
  }

  static ProfileScore score(NerveBench bench, PhantomParameters eye) throws InterruptedException {
    PhantomScan phantom = PhantomScan.of(eye, ScanPlan.nerveCircle());
    return ProfileScore.scanned(
        bench.measure(phantom).profile(), phantom.truth().nerve().orElseThrow());
  }
}
