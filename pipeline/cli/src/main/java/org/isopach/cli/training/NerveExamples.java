package org.isopach.cli.training;

import java.util.SplittableRandom;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;

/** Scans around and through the optic disc, for training: circles, radial frames and rasters. */
final class NerveExamples {
  private static final double[] AXIAL_MICROMETRES = {3.87, 3.87, 2.6, 1.95};
  private static final int[] DEPTHS = {496, 496, 768, 1024};
  private static final double[] LENGTH_MM = {6, 4.5, 6, 8.7};
  private static final int[] ASCANS = {512, 768, 768, 768};

  private NerveExamples() {}

  /** Returns a scan whose plan and eye follow from the seed, of as many frames as asked for. */
  static PhantomScan scan(long seed, int frames) {
    SplittableRandom random = new SplittableRandom(seed);
    int kind = random.nextInt(LENGTH_MM.length);
    ScanSize size = new ScanSize(frames, ASCANS[kind], DEPTHS[kind]);
    ScanPlan plan = plan(size, kind, random);
    boolean healthy = random.nextInt(3) == 0;
    PhantomParameters eye =
        healthy ? PhantomParameters.drawNerve(seed) : PhantomParameters.drawNerveSick(seed);
    double off = 0.6 * random.nextDouble();
    double to = 2 * Math.PI * random.nextDouble();
    return PhantomScan.of(eye.onDisc(off * Math.cos(to), off * Math.sin(to)), plan);
  }

  /** Returns a radial or raster scan over the disc, as {@link #scan} does. */
  static PhantomScan area(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int kind = random.nextInt(LENGTH_MM.length);
    boolean radial = random.nextInt(3) > 0;
    ScanSize size = new ScanSize(radial ? 8 : 15, ASCANS[kind], DEPTHS[kind]);
    double axial = AXIAL_MICROMETRES[kind];
    ScanPlan plan =
        radial
            ? ScanPlan.radial(size, axial, LENGTH_MM[kind])
            : ScanPlan.raster(size, axial, LENGTH_MM[kind], 2.4, random.nextInt(4) == 0 ? 90 : 0);
    PhantomParameters eye =
        random.nextInt(3) == 0
            ? PhantomParameters.drawNerveSick(seed)
            : PhantomParameters.drawNerve(seed);
    return PhantomScan.of(eye, plan);
  }

  private static ScanPlan plan(ScanSize size, int kind, SplittableRandom random) {
    double axial = AXIAL_MICROMETRES[kind];
    return switch (random.nextInt(3)) {
      case 0 -> ScanPlan.circle(size, axial, 2.6 + 2.2 * random.nextDouble());
      case 1 -> ScanPlan.radial(size, axial, LENGTH_MM[kind]);
      default ->
          ScanPlan.raster(
              size,
              axial,
              LENGTH_MM[kind],
              0.5 + 4.5 * random.nextDouble(),
              random.nextInt(4) == 0 ? 90 : 0);
    };
  }
}
