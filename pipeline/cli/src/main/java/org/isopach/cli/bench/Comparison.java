package org.isopach.cli.bench;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import org.isopach.job.JobResult;

/**
 * The job beside a pass that only decodes, on the same files, in turns.
 *
 * @param volumes number of volumes
 * @param decodeSeconds median over the turns
 * @param jobSeconds median over the turns
 * @param ratio median over the turns of job by decoding
 * @param use heap of the job, the largest of the turns
 * @param stages milliseconds for each volume that the last job notes: segment, map, write
 */
record Comparison(
    int volumes,
    double decodeSeconds,
    double jobSeconds,
    double ratio,
    HeapWatch.Use use,
    Stages stages) {
  private static final double NANOS_PER_SECOND = 1e9;

  /** Wall-clock milliseconds for each volume. */
  record Stages(double segment, double map, double write) {
    static Stages of(JobResult result) {
      var times = result.run().timings().objects();
      return new Stages(
          times.stream().mapToLong(one -> one.segmentMillis()).average().orElse(Double.NaN),
          times.stream().mapToLong(one -> one.mapMillis()).average().orElse(Double.NaN),
          times.stream().mapToLong(one -> one.writeMillis()).average().orElse(Double.NaN));
    }
  }

  /**
   * Runs both in turns.
   *
   * @param warm turns that are not counted
   * @param turns turns that are
   */
  static Comparison run(
      Path folder, DecodePass decode, JobPass job, HeapWatch heap, int warm, int turns)
      throws IOException, InterruptedException {
    double[] decoding = new double[turns];
    double[] working = new double[turns];
    double[] ratios = new double[turns];
    long peak = 0;
    long collected = 0;
    JobResult last = null;
    for (int turn = -warm; turn < turns; turn++) {
      long start = System.nanoTime();
      decode.run(folder);
      long decoded = System.nanoTime();
      heap.start();
      long begun = System.nanoTime();
      last = job.run(folder);
      long done = System.nanoTime();
      HeapWatch.Use use = heap.stop();
      peak = Math.max(peak, use.peak());
      collected = Math.max(collected, use.afterCollection());
      if (turn >= 0) {
        decoding[turn] = (decoded - start) / NANOS_PER_SECOND;
        working[turn] = (done - begun) / NANOS_PER_SECOND;
        ratios[turn] = working[turn] / decoding[turn];
      }
    }
    return new Comparison(
        last.run().inputs().size(),
        median(decoding),
        median(working),
        median(ratios),
        new HeapWatch.Use(peak, collected),
        Stages.of(last));
  }

  double volumesPerSecond() {
    return volumes / jobSeconds;
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    Arrays.sort(sorted);
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }
}
