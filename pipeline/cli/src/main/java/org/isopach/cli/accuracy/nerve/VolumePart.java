package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/** Volumes of the disc, and circles laid into them against circles that were scanned. */
final class VolumePart {
  private static final int EYES = 20;
  private static final int SICK_EYES = 10;
  private static final double QUADRANT_UM = 2;

  /**
   * One eye.
   *
   * @param disc the volume's errors
   * @param apartUm the resampled less the scanned circle by quadrant, then all round
   */
  private record Eye(DiscScore disc, List<Double> apartUm) {
    Eye {
      apartUm = List.copyOf(apartUm);
    }
  }

  private final NerveBench bench;
  private final NerveSeeds seeds;

  VolumePart(NerveBench bench, NerveSeeds seeds) {
    this.bench = bench;
    this.seeds = seeds;
  }

  void addTo(Markdown page) throws InterruptedException {
    List<Long> eyes = seeds.first(EYES);
    page.heading(2, "Volumes of the disc")
        .paragraph(
            NerveSeeds.words(eyes)
                + ": healthy, typical conditions, each scanned three times: in 24 frames of 768"
                + " A-scans of 6 mm through the middle, in a raster of 97 frames of 512 A-scans over 6 x 6 mm, and"
                + " along the circle of 3.46 mm round the true centre of the opening. Distance of"
                + " a contour is the mean distance of its samples from the true one. Rim widths"
                + " are means over the six sectors, symmetric about the horizontal, found ones"
                + " round the found centre, true ones round the true. The circle of 3.46 mm is laid"
                + " round the found centre and held against the true profile round the true centre,"
                + " so that an error of the centre counts.");
    volumes(page, "Radial", ScanPlan.nerveRadial(), eyes);
    volumes(page, "Raster", ScanPlan.nerveRaster(), eyes);
  }

  private void volumes(Markdown page, String name, ScanPlan plan, List<Long> seedsOfEyes)
      throws InterruptedException {
    List<Eye> eyes = bench.each(name + " volumes", seedsOfEyes, seed -> eye(seed, plan));
    page.heading(3, name);
    DiscScores discs = new DiscScores(eyes.stream().map(Eye::disc).toList());
    BarTable bars = discs.addTo(new BarTable());
    bars.worst("greatest distance of centres: seed (µm)", seedsOfEyes, discs.centresUm());
    bars.worst("greatest distance of contours: seed (µm)", seedsOfEyes, discs.contoursUm());
    bars.worst("greatest sector of the rim: seed (µm)", seedsOfEyes, discs.worstRimsUm());
    bars.worst("greatest clock-hour errors: seed (µm)", seedsOfEyes, discs.profiles().worstHours());
    bars.addTo(page);
    sick(page, name, plan, discs);
    page.paragraph("The circle laid into the volume less the circle that was scanned:");
    BarTable table = new BarTable();
    List<Double> all = new ArrayList<>();
    for (int q = 0; q <= 4; q++) {
      int at = q;
      List<Double> apart = eyes.stream().map(eye -> eye.apartUm().get(at)).toList();
      all.addAll(q < 4 ? apart : List.of());
      table.errors(quadrant(q), new Errors(apart), 2, "µm", QUADRANT_UM);
    }
    Errors each = new Errors(all);
    table.row(
        "every quadrant of every eye (strict reading)",
        "worst " + Markdown.number(each.worst(), 2) + " µm",
        "≤ 2 µm",
        each.worst() <= QUADRANT_UM && each.missing() == 0);
    table.addTo(page);
  }

  private void sick(Markdown page, String name, ScanPlan plan, DiscScores healthy)
      throws InterruptedException {
    List<Long> ill = seeds.first(SICK_EYES);
    DiscScores discs =
        new DiscScores(
            bench.each(
                name + " volumes of sick eyes",
                ill,
                seed -> {
                  PhantomScan scan = PhantomScan.of(PhantomParameters.drawNerveSick(seed), plan);
                  return DiscScore.of(scan, bench.disc(scan));
                }));
    page.paragraph("Beside " + NerveSeeds.words(ill) + " drawn sick:")
        .table(DiscScores.header(), List.of(healthy.row("healthy"), discs.row("sick")))
        .table(
            ProfileScores.header(),
            List.of(
                healthy.profiles().row("circle laid, healthy"),
                discs.profiles().row("circle laid, sick")));
    new BarTable()
        .worst("sick, greatest distance of contours: seed (µm)", ill, discs.contoursUm())
        .worst("sick, greatest sector of the rim: seed (µm)", ill, discs.worstRimsUm())
        .addTo(page);
  }

  private static String quadrant(int q) {
    return q < 4 ? ArcSchemes.QUADRANTS.arcs().get(q).name() : "all round";
  }

  private Eye eye(long seed, ScanPlan plan) throws InterruptedException {
    PhantomParameters eye = PhantomParameters.drawNerve(seed);
    PhantomScan phantom = PhantomScan.of(eye, plan);
    DiscScore disc = DiscScore.of(phantom, bench.disc(phantom));
    Optional<CircleProfile> circle = bench.circle(eye.onDisc(0, 0));
    List<Double> apart = new ArrayList<>();
    List<Double> scanned =
        circle.map(one -> ProfileScore.meansUm(one, ArcSchemes.QUADRANTS)).orElse(List.of());
    for (int q = 0; q <= 4; q++) {
      apart.add(scanned.isEmpty() ? Double.NaN : disc.profileUm().get(q) - scanned.get(q));
    }
    return new Eye(disc, apart);
  }
}
