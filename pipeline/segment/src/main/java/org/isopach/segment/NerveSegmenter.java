package org.isopach.segment;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.quality.QualityFindings;
import org.isopach.analysis.quality.QualityRules;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.OctScan;

/**
 * Finds the boundaries of the retina around the optic nerve, and the opening of Bruch's membrane.
 *
 * <p>As in the macula, with a tissue model and a confidence that were trained further on frames
 * around and through the disc. Circle scans are searched as the closed lines they are. The result
 * does not depend on the number of threads.
 */
public final class NerveSegmenter {
  private static final int LEAST_FRAMES = 3;

  private final ExecutorService pool;
  private final int threads;

  /**
   * Makes a segmenter.
   *
   * @param pool runs the frames; not shut down here
   * @param threads how many workers to put on the pool, at least 1
   */
  public NerveSegmenter(ExecutorService pool, int threads) {
    if (threads < 1) {
      throw new IllegalArgumentException("threads must be at least 1, was " + threads);
    }
    this.pool = pool;
    this.threads = threads;
  }

  /**
   * Looks at one scan.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  public NerveLook look(OctScan scan) throws InterruptedException {
    if (scan.laterality().equals(Optional.of(Laterality.LEFT))) {
      return new Search(Mirror.of(scan), new FrameLoop(pool, threads))
          .found()
          .asLook(Optional.of(Laterality.LEFT));
    }
    return new Search(scan, new FrameLoop(pool, threads)).found().asLook(scan.laterality());
  }

  /** The search in one scan that is laid out as a right eye. */
  private static final class Search {
    private final OctScan scan;
    private final FrameLoop loop;
    private final boolean circle;
    private final LoadedScan loaded;

    Search(OctScan scan, FrameLoop loop) throws InterruptedException {
      this.scan = scan;
      this.loop = loop;
      this.circle = scan.path().filter(p -> p.pattern() == ScanPattern.CIRCLE).isPresent();
      OctScan searched = circle ? ClosedFrames.extended(scan) : scan;
      this.loaded = LoadedScan.read(searched, Learnt.nerve().model(), loop);
    }

    NerveFound found() throws InterruptedException {
      Admission admission = Admission.of(loaded);
      if (!admission.admitted()) {
        return NerveFound.refused(admission.findings(), QualityMeter.refused(loaded));
      }
      BoundarySet traced = BoundaryTrace.of(loaded, Learnt.nerve(), loop);
      QualityMeter meter = QualityMeter.lookAtFrames(loaded, traced, loop);
      BoundarySet gated = meter.gate(traced);
      OpeningResult opening = opening(gated, meter);
      List<Finding> findings = new ArrayList<>(admission.findings());
      opening.whyNot().ifPresent(why -> add(findings, why));
      Optional<Landmark> fovea = fovea(opening, findings);
      ScanQuality quality =
          circle
              ? meter.quality(
                  ClosedFrames.cropped(gated, scan), fovea, scan.path(), ClosedFrames.spare(scan))
              : meter.quality(gated, fovea);
      QualityFindings.of(quality, QualityRules.DEFAULT, scan.document().location()).stream()
          .filter(finding -> finding.kind() != FindingKind.DECENTRED)
          .forEach(findings::add);
      return new NerveFound(
          Optional.of(
              circle ? ClosedFrames.cropped(opening.boundaries(), scan) : opening.boundaries()),
          opening.shape(),
          fovea,
          findings,
          quality);
    }

    private OpeningResult opening(BoundarySet gated, QualityMeter meter) {
      Optional<ScanPath> area =
          scan.path()
              .filter(p -> p.pattern() == ScanPattern.RASTER || p.pattern() == ScanPattern.RADIAL)
              .filter(p -> p.frames() >= LEAST_FRAMES);
      if (area.isEmpty()) {
        return OpeningResult.notLookedFor(gated);
      }
      return new OpeningFinder(loaded, meter, area.get(), gated).find();
    }

    /** A scan of the disc need not show the fovea: that it is not found is not said. */
    private Optional<Landmark> fovea(OpeningResult opening, List<Finding> findings) {
      List<Finding> said = new ArrayList<>();
      Optional<Landmark> fovea =
          new PitSearch(scan, said).find(opening.boundaries(), opening.middle());
      said.stream()
          .filter(finding -> finding.kind() != FindingKind.FOVEA_NOT_FOUND)
          .forEach(findings::add);
      return fovea;
    }

    private void add(List<Finding> findings, String why) {
      findings.add(new Finding(FindingKind.OPENING_NOT_SEEN, scan.document().location(), why));
    }
  }
}
