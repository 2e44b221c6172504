package org.isopach.cli.accuracy.nerve;

import java.util.List;
import java.util.OptionalDouble;
import java.util.function.LongFunction;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/** The angle of the line from fovea to disc, from volumes that hold both. */
final class AnglePart {
  private static final int EYES = 12;
  private static final int SICK_EYES = 6;
  private static final double ANGLE_DEGREES = 1;

  private final NerveBench bench;
  private final NerveSeeds seeds;

  AnglePart(NerveBench bench, NerveSeeds seeds) {
    this.bench = bench;
    this.seeds = seeds;
  }

  void addTo(Markdown page) throws InterruptedException {
    List<Long> healthy = seeds.first(EYES);
    List<Long> sick = seeds.first(SICK_EYES);
    page.heading(2, "Angle from fovea to disc")
        .paragraph(
            NerveSeeds.words(healthy)
                + ", healthy, and "
                + NerveSeeds.words(sick)
                + " drawn sick, each in one volume that holds both (97 frames of 1024 A-scans over"
                + " 12 x 9 mm, 768 depths of 2.6 µm). Missing is an angle that is not given because"
                + " fovea or opening was not seen.");
    Errors found = errors("wide volumes", healthy, PhantomParameters::drawNerve);
    Errors ill = errors("wide volumes of sick eyes", sick, PhantomParameters::drawNerveSick);
    new BarTable()
        .errors("healthy eyes", found, 2, "degrees", ANGLE_DEGREES)
        .errors("sick eyes", ill, 2, "degrees", ANGLE_DEGREES)
        .addTo(page);
  }

  private Errors errors(String what, List<Long> eyes, LongFunction<PhantomParameters> draw)
      throws InterruptedException {
    return new Errors(
        bench.each(
            what,
            eyes,
            seed -> {
              PhantomScan scan =
                  PhantomScan.of(draw.apply(seed).onMaculaAndDisc(), ScanPlan.wide());
              OptionalDouble angle = bench.measure(scan).foveaDiscDegrees();
              double truth = scan.truth().nerve().orElseThrow().foveaDiscDegrees();
              return angle.isPresent() ? angle.getAsDouble() - truth : Double.NaN;
            }));
  }
}
