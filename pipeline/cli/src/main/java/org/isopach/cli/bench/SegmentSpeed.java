package org.isopach.cli.bench;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.segment.RetinaSegmenter;
import org.isopach.segment.TissueFrames;
import org.isopach.segment.tissue.TissueModel;

/** Speed and memory of finding all boundaries and regions, from grey values to surfaces. */
final class SegmentSpeed {
  private static final long SEED = 4100;
  private static final int WARM = 2;
  private static final int TURNS = 3;
  private static final double NANOS_PER_MILLI = 1e6;
  private static final double NANOS_PER_SECOND = 1e9;

  private final ThreadMXBean thread = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  /**
   * Volumes of one number of frames of 512 A-scans and 496 depths.
   *
   * @param frames number of frames
   * @param millisPerFrame processor time on one thread, least of some turns
   * @param seconds wall-clock time of a volume on two threads, least of some turns
   * @param bytesPerFrame allocated on one thread
   */
  record Row(int frames, double millisPerFrame, double seconds, double bytesPerFrame) {}

  private SegmentSpeed() {}

  /** Measures volumes of each number of frames. */
  static List<Row> run(int... frames) throws FrameReadException, InterruptedException {
    SegmentSpeed speed = new SegmentSpeed();
    List<OctScan> scans = new ArrayList<>();
    for (int count : frames) {
      scans.add(volume(count));
    }
    for (int i = 0; i < WARM; i++) {
      speed.alone(scans.get(0));
    }
    List<Row> rows = new ArrayList<>();
    for (OctScan scan : scans) {
      rows.add(speed.row(scan));
    }
    return rows;
  }

  /** Returns processor milliseconds of decoding, averaging and the tissue model for a frame. */
  static double modelMillis(OctScan scan) throws FrameReadException {
    SegmentSpeed speed = new SegmentSpeed();
    TissueFrames pictures = new TissueFrames(scan);
    double least = Double.POSITIVE_INFINITY;
    for (int turn = 0; turn < TURNS; turn++) {
      long start = speed.thread.getCurrentThreadCpuTime();
      for (int f = 0; f < scan.size().frames(); f++) {
        TissueModel.shipped().look(pictures.picture(f));
      }
      double millis = (speed.thread.getCurrentThreadCpuTime() - start) / NANOS_PER_MILLI;
      least = Math.min(least, millis / scan.size().frames());
    }
    return least;
  }

  /** Returns one volume of the size that others are judged by, kept in memory. */
  static OctScan volume(int frames) throws FrameReadException {
    ScanPlan plan = ScanPlan.raster(new ScanSize(frames, 512, 496), 3.87, 6, 6, 0);
    return BenchFiles.kept(PhantomScan.of(PhantomParameters.draw(SEED), plan).scan());
  }

  private Row row(OctScan scan) throws InterruptedException {
    int frames = scan.size().frames();
    double[] millis = new double[TURNS];
    double[] seconds = new double[TURNS];
    double[] bytes = new double[TURNS];
    for (int turn = 0; turn < TURNS; turn++) {
      double[] alone = alone(scan);
      millis[turn] = alone[0] / frames;
      bytes[turn] = alone[1] / frames;
      seconds[turn] = together(scan);
    }
    return new Row(frames, least(millis), least(seconds), least(bytes));
  }

  private static double least(double[] values) {
    return Arrays.stream(values).min().orElse(Double.NaN);
  }

  /** Returns processor milliseconds and bytes allocated when everything runs on this thread. */
  private double[] alone(OctScan scan) throws InterruptedException {
    RetinaSegmenter segmenter = new RetinaSegmenter(new InlineExecutor(), 1);
    long id = Thread.currentThread().getId();
    long bytes = thread.getThreadAllocatedBytes(id);
    long start = thread.getCurrentThreadCpuTime();
    segmenter.segment(scan);
    long nanos = thread.getCurrentThreadCpuTime() - start;
    return new double[] {nanos / NANOS_PER_MILLI, thread.getThreadAllocatedBytes(id) - bytes};
  }

  /** Returns seconds on two threads. */
  private static double together(OctScan scan) throws InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    try {
      RetinaSegmenter segmenter = new RetinaSegmenter(pool, 2);
      long start = System.nanoTime();
      segmenter.segment(scan);
      return (System.nanoTime() - start) / NANOS_PER_SECOND;
    } finally {
      pool.shutdownNow();
    }
  }
}
