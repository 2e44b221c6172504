package org.isopach.segment;

import java.util.Map;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.tissue.TissueMap;

/**
 * Hands out the evidence for every depth of a scan, so that the confidence scale can be fitted to
 * scans whose truth is known.
 */
public final class EvidenceStudy {
  private final ExecutorService pool;
  private final Learnt learnt;

  /** Receives depths and what speaks for them. */
  @FunctionalInterface
  public interface Receiver {
    /**
     * Takes one.
     *
     * @param depthPx depth in pixels, 0 at the centre of the first
     */
    void take(int frame, int ascan, float depthPx, Evidence evidence);
  }

  /**
   * Makes a study that runs on one thread of a pool.
   *
   * @param nerve whether scans are searched as those of the nerve, or as those of the macula
   */
  public EvidenceStudy(ExecutorService pool, boolean nerve) {
    this.pool = pool;
    this.learnt = nerve ? Learnt.nerve() : Learnt.macula();
  }

  /**
   * Traces all boundaries of a scan.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  public void run(OctScan scan, Receiver receiver) throws InterruptedException {
    FrameLoop loop = new FrameLoop(pool, 1);
    LoadedScan loaded = LoadedScan.read(scan, learnt.model(), loop);
    TissueMap[] maps = loaded.tissues();
    LayerVolume layers = LayerVolume.search(maps, learnt.rules(), loaded, loop);
    FrameTracer tracer = new FrameTracer(scan.axial(), RetinaSegmenter.ascanMicrometres(scan));
    for (int frame : loaded.usableFrames()) {
      Map<Boundary, TracedLine> lines =
          tracer.trace(
              loaded.view(frame), maps[frame], layers.paths(frame), loaded.contrastToNoise(frame));
      for (TracedLine line : lines.values()) {
        for (int a = 0; a < line.ascans(); a++) {
          receiver.take(frame, a, line.depthPx(a), line.evidence(a));
        }
      }
    }
  }
}
