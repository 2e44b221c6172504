package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.RimProfile;
import org.isopach.cli.accuracy.Progress;
import org.isopach.cli.accuracy.SideBySide;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.job.NerveFigures;
import org.isopach.job.SingleNerve;

/**
 * Renders phantoms and measures them as the job does; several scans at a time, each on one thread,
 * which changes no result.
 */
final class NerveBench implements AutoCloseable {
  /** The nerve fibre layer. */
  static final Layer FIBRES = LayerCatalogue.ofWord("RNFL").orElseThrow();

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
  private final SingleNerve nerve;
  private final Progress progress;

  NerveBench(int threads, Progress progress) {
    this.scans = Executors.newFixedThreadPool(threads);
    this.frames = Executors.newFixedThreadPool(threads);
    this.nerve = SingleNerve.of(frames, 1);
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

  /** Returns what the program measures in a scan. */
  NerveFigures measure(PhantomScan phantom) throws InterruptedException {
    return nerve.measure(phantom.scan());
  }

  /** Returns the profile of a standard circle scan of an eye; empty when it is refused. */
  Optional<CircleProfile> circle(PhantomParameters eye) throws InterruptedException {
    return measure(PhantomScan.of(eye, ScanPlan.nerveCircle())).profile();
  }

  /** Returns the disc in a volume; empty when the scan is refused or the opening is not seen. */
  Optional<Disc> disc(PhantomScan phantom) throws InterruptedException {
    NerveFigures found = measure(phantom);
    return found.opening().isEmpty() || found.profile().isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Disc(found.opening().get(), found.rim().orElseThrow(), found.profile().get()));
  }

  @Override
  public void close() {
    scans.shutdownNow();
    frames.shutdownNow();
  }
}
