package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.CircleResult;
import org.isopach.analysis.nerve.CircleSampler;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.RimMeter;
import org.isopach.analysis.nerve.RimProfile;
import org.isopach.analysis.scan.OctScan;
import org.isopach.cli.accuracy.Progress;
import org.isopach.cli.accuracy.SideBySide;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.segment.NerveLook;
import org.isopach.segment.NerveSegmenter;
import org.isopach.segment.RetinaSegmenter;

/**
 * Renders phantoms and reads them as the program does; several scans at a time, each on one thread,
 * which changes no result.
 */
final class NerveBench implements AutoCloseable {
  /** The nerve fibre layer. */
  static final Layer FIBRES = LayerCatalogue.ofWord("RNFL").orElseThrow();

  private static final double CONFIDENCE = InterpolationRules.DEFAULT.minimumConfidence();
  private static final MapLattice LATTICE = MapLattice.centred(2.0, 0.02);

  /** What is done for one eye. */
  @FunctionalInterface
  interface Task<T> {
    T of(long seed) throws InterruptedException;
  }

  /**
   * What a volume of the disc shows.
   *
   * @param opening the opening
   * @param rim its rim
   * @param profile the standard circle laid round the opening's centre
   */
  record Disc(DiscOpening opening, RimProfile rim, CircleProfile profile) {}

  private final ExecutorService scans;
  private final ExecutorService frames;
  private final NerveSegmenter nerve;
  private final RetinaSegmenter retina;
  private final Progress progress;

  NerveBench(int threads, Progress progress) {
    this.scans = Executors.newFixedThreadPool(threads);
    this.frames = Executors.newFixedThreadPool(threads);
    this.nerve = new NerveSegmenter(frames, 1);
    this.retina = new RetinaSegmenter(frames, 1);
    this.progress = progress;
  }

  /** Does something for every eye and returns the results in the order of the seeds. */
  <T> List<T> each(String what, List<Long> seeds, Task<T> task) throws InterruptedException {
    List<Callable<T>> work = new ArrayList<>();
    for (long seed : seeds) {
      work.add(() -> task.of(seed));
    }
    return SideBySide.all(scans, progress.watching(what, work));
  }

  /** Returns the profile of a standard circle scan of an eye; empty when it is refused. */
  Optional<CircleProfile> circle(PhantomParameters eye) throws InterruptedException {
    return circle(PhantomScan.of(eye, ScanPlan.nerveCircle()));
  }

  /** Returns the profile of a circle scan; empty when it is refused. */
  Optional<CircleProfile> circle(PhantomScan phantom) throws InterruptedException {
    OctScan scan = phantom.scan();
    NerveLook look = nerve.look(scan);
    if (look.boundaries().isEmpty()) {
      return Optional.empty();
    }
    CircleResult result =
        CircleSampler.ofCircleScan(
            scan,
            scan.path().orElseThrow(),
            look.boundaries().get(),
            FIBRES,
            CONFIDENCE,
            AngleZero.HORIZONTAL);
    return result instanceof CircleProfile profile ? Optional.of(profile) : Optional.empty();
  }

  /** Returns the disc in a volume; empty when the scan is refused or the opening is not seen. */
  Optional<Disc> disc(PhantomScan phantom) throws InterruptedException {
    OctScan scan = phantom.scan();
    NerveLook look = nerve.look(scan);
    if (look.opening().isEmpty() || look.boundaries().isEmpty()) {
      return Optional.empty();
    }
    DiscOpening opening = look.opening().get();
    ThicknessMap map =
        new MapInterpolator(InterpolationRules.DEFAULT)
            .interpolate(
                scan,
                scan.path().orElseThrow(),
                look.boundaries().get(),
                FIBRES,
                new Landmark(opening.centre(), Landmark.Source.DISC_OPENING),
                LATTICE);
    return Optional.of(
        new Disc(
            opening,
            RimMeter.measure(opening, look.innerSurface().orElseThrow()),
            CircleSampler.ofMap(map, CircleSampler.STANDARD_DIAMETER_MM, AngleZero.HORIZONTAL)));
  }

  /** Returns the centre of the opening as the nerve's search finds it. */
  Optional<DiscOpening> opening(PhantomScan phantom) throws InterruptedException {
    return nerve.look(phantom.scan()).opening();
  }

  /** Returns the fovea as the search in maculas finds it. */
  Optional<Landmark> fovea(PhantomScan phantom) throws InterruptedException {
    return retina.segment(phantom.scan()).fovea();
  }

  @Override
  public void close() {
    scans.shutdownNow();
    frames.shutdownNow();
  }
}
