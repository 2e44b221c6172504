package org.isopach.segment;

import java.util.Arrays;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.tissue.MembraneModel;

/**
 * Hands out small pictures of Bruch's membrane around the optic disc, so that a model can learn
 * where the membrane ends from scans whose truth is known.
 */
public final class MembraneStudy {
  private final ExecutorService pool;

  /** Receives pictures. */
  @FunctionalInterface
  public interface Receiver {
    /**
     * Takes one.
     *
     * @param frame of the scan
     * @param ascan of the scan, under the picture's middle column
     * @param patch grey values row by row, of the shape in {@link MembraneModel}; dark is 0, bright
     *     1
     */
    void take(int frame, int ascan, float[] patch);
  }

  /** Makes a study that runs on one thread of a pool. */
  public MembraneStudy(ExecutorService pool) {
    this.pool = pool;
  }

  /**
   * Finds the opening of a raster or radial scan and hands out the pictures around it; none when it
   * is not found.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  public void run(OctScan scan, Receiver receiver) throws InterruptedException {
    boolean left = scan.laterality().equals(Optional.of(Laterality.LEFT));
    OctScan searched = left ? Mirror.of(scan) : scan;
    ScanPath path = searched.path().orElseThrow();
    FrameLoop loop = new FrameLoop(pool, 1);
    LoadedScan loaded = LoadedScan.read(searched, Learnt.nerve().model(), loop);
    BoundarySet traced = BoundaryTrace.of(loaded, Learnt.nerve(), loop);
    QualityMeter meter = QualityMeter.lookAtFrames(loaded, traced, loop);
    MembranePatches patches =
        new OpeningFinder(loaded, meter, path, meter.gate(traced)).patches().orElse(null);
    if (patches == null) {
      return;
    }
    float[] values = patches.values();
    for (int i = 0; i < patches.count(); i++) {
      int from = i * MembraneModel.VALUES;
      int ascan = left ? path.ascans() - 1 - patches.ascan(i) : patches.ascan(i);
      receiver.take(
          patches.frame(i), ascan, Arrays.copyOfRange(values, from, from + MembraneModel.VALUES));
    }
  }
}
