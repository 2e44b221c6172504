package org.isopach.segment;

import ij.Prefs;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.quality.QualityFindings;
import org.isopach.analysis.quality.QualityRules;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;

/**
 * Finds the boundaries of the retina and the fovea in a scan.
 *
 * <p>The way: decode every frame once and ask the tissue model; refuse what is no retina; find all
 * boundaries as cheapest paths on the tissue maps, drawn to what neighbouring frames found; settle
 * the clear ones on their edge in the full picture; judge the quality; label regions; look for the
 * foveal pit in the thickness. The result does not depend on the number of threads.
 */
public final class RetinaSegmenter {
  private static final double NOMINAL_FRAME_MICROMETRES = 6000;

  static {
    // Frames are shared out among our own workers; ImageJ's filters need no threads beside them.
    Prefs.setThreads(1);
  }

  private final ExecutorService pool;
  private final int threads;

  /**
   * Makes a segmenter.
   *
   * @param pool runs the frames; not shut down here
   * @param threads how many workers to put on the pool, at least 1
   */
  public RetinaSegmenter(ExecutorService pool, int threads) {
    if (threads < 1) {
      throw new IllegalArgumentException("threads must be at least 1, was " + threads);
    }
    this.pool = pool;
    this.threads = threads;
  }

  /**
   * Segments one scan.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  public SegmentationResult segment(OctScan scan) throws InterruptedException {
    if (scan.laterality().equals(Optional.of(Laterality.LEFT))) {
      return Mirror.of(segmentAsLaidOut(Mirror.of(scan)));
    }
    return segmentAsLaidOut(scan);
  }

  private SegmentationResult segmentAsLaidOut(OctScan scan) throws InterruptedException {
    FrameLoop loop = new FrameLoop(pool, threads);
    LoadedScan loaded = LoadedScan.read(scan, loop);
    Admission admission = Admission.of(loaded);
    List<Finding> findings = new ArrayList<>(admission.findings());
    if (!admission.admitted()) {
      return refused(loaded, findings);
    }
    BoundarySet traced = BoundaryTrace.of(loaded, Learnt.macula(), loop);
    QualityMeter meter = QualityMeter.look(loaded, traced, loop);
    BoundarySet boundaries = meter.gate(traced);
    Optional<Landmark> fovea =
        new PitSearch(scan, findings).find(boundaries, meter.disc().map(OpticDisc::centre));
    ScanQuality quality = meter.quality(boundaries, fovea);
    findings.addAll(QualityFindings.of(quality, QualityRules.DEFAULT, scan.document().location()));
    RegionLabels regions = new RegionFinder(loaded, meter, boundaries).find(loop);
    return new SegmentationResult(
        Optional.of(boundaries), fovea, meter.disc(), regions, findings, quality);
  }

  private static SegmentationResult refused(LoadedScan loaded, List<Finding> findings) {
    return new SegmentationResult(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        RegionLabels.none(loaded.scan().size()),
        findings,
        QualityMeter.refused(loaded));
  }

  /**
   * Returns the distance between A-scans. Where the object does not say how long a frame is, 6 mm
   * are supposed: for smoothing, the width of the tissue model's cells and the least area of
   * regions, never for a length or an area that is reported.
   */
  static double ascanMicrometres(OctScan scan) {
    return scan.path()
        .map(path -> path.ascanSpacingMm() * 1000)
        .orElse(NOMINAL_FRAME_MICROMETRES / scan.size().ascans());
  }
}
