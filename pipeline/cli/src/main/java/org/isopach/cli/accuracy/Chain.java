package org.isopach.cli.accuracy;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.job.JobRequest;
import org.isopach.job.LaidVisits;
import org.isopach.job.MeasuredScan;
import org.isopach.job.ScanChange;
import org.isopach.job.ScanComparer;
import org.isopach.job.ScanMeasurer;
import org.isopach.segment.RetinaSegmenter;
import org.isopach.segment.SegmentationResult;

/**
 * The stages of the job from frames to tables, in memory. Several scans are rendered and measured
 * at a time, each on one thread, which changes no result.
 */
final class Chain implements AutoCloseable {
  private final ExecutorService scans;
  private final ExecutorService frames;
  private final RetinaSegmenter segmenter;
  private final ScanMeasurer measurer;
  private final ScanComparer comparer;

  /**
   * Makes a chain.
   *
   * @param threads scans worked on at a time
   * @param layers the thicknesses that are mapped
   */
  Chain(int threads, List<Layer> layers) {
    this.scans = Executors.newFixedThreadPool(threads);
    this.frames = Executors.newFixedThreadPool(threads);
    this.segmenter = new RetinaSegmenter(frames, 1);
    JobRequest request = request(layers);
    this.measurer = ScanMeasurer.of(request, frames);
    this.comparer = ScanComparer.of(request, frames);
  }

  /** The request's inputs and outputs are not looked at by the stages used here. */
  private static JobRequest request(List<Layer> layers) {
    JobRequest all = JobRequest.of(List.of(Path.of("phantom")), Path.of("nowhere"));
    return new JobRequest(
        all.inputs(),
        all.out(),
        layers,
        Set.of(),
        all.grid(),
        all.axialLengths(),
        all.baseline(),
        all.outputs(),
        all.frames(),
        1);
  }

  MeasuredScan measure(OctScan scan) throws InterruptedException {
    return measurer.measure(scan);
  }

  /** Returns boundaries and regions of a scan, without maps. */
  SegmentationResult segment(OctScan scan) throws InterruptedException {
    return segmenter.segment(scan);
  }

  /** Returns the change between two scans; no layers when one of them has no map. */
  ScanChange compareWhenMapped(MeasuredScan baseline, MeasuredScan followUp)
      throws InterruptedException {
    if (baseline.place().isEmpty() || followUp.place().isEmpty()) {
      return new ScanChange(List.of(), List.of());
    }
    return comparer.compare(baseline, followUp);
  }

  /** Returns two scans laid on one another; nothing when one of them has no map. */
  LaidVisits lay(MeasuredScan first, MeasuredScan second) throws InterruptedException {
    return first.place().isEmpty() || second.place().isEmpty()
        ? new LaidVisits("", List.of(), List.of(), Optional.empty())
        : comparer.lay(first, second);
  }

  /** Runs pieces of work side by side and returns their results in order. */
  <T> List<T> all(List<Callable<T>> pieces) throws InterruptedException {
    return SideBySide.all(scans, pieces);
  }

  @Override
  public void close() {
    scans.shutdownNow();
    frames.shutdownNow();
  }
}
