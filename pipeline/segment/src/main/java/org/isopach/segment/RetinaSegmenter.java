package org.isopach.segment;

import ij.Prefs;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.stream.Collectors;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.Boundary;
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
  /**
   * Down to where the pit is looked for: the whole retina; else what lies before fluid or a
   * detachment; else the layers that end at the foveola, which no swelling of the outer nuclear
   * layer fills.
   */
  private static final List<Boundary> PIT_BOTTOMS =
      List.of(Boundary.BM, Boundary.EZ, Boundary.OPL_ONL);

  private static final double NOMINAL_FRAME_MICROMETRES = 6000;
  private static final double LEAST_DISC_TO_FOVEA_MM = 3.0;
  private static final float LEAST_SCORE = 0.55f;
  private static final float UPSIDE_DOWN_LEAD = 0.05f;
  private static final float BRIGHTER_IN_FRONT = 0.03f;

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
    List<Finding> findings = new ArrayList<>();
    LoadedScan loaded = LoadedScan.read(scan, loop);
    noteUnreadable(loaded, findings);
    InputClassifier input = new InputClassifier(loaded);
    Optional<Finding> refusal = input.beforeSearch();
    if (refusal.isPresent() || loaded.usableFrames().length == 0) {
      return refused(loaded, findings, refusal);
    }
    RetinaLook look = RetinaLook.at(loaded);
    refusal = refusal(loaded, look).or(() -> input.afterLook(look.innerPaths()));
    if (refusal.isPresent()) {
      return refused(loaded, findings, refusal);
    }
    LayerVolume layers = LayerVolume.search(loaded.tissues(), loaded, loop);
    BoundarySet traced = trace(loaded, layers, loop);
    QualityMeter meter = QualityMeter.look(loaded, traced, loop);
    BoundarySet boundaries = meter.gate(traced);
    Optional<Landmark> fovea = fovea(scan, boundaries, meter.disc(), findings);
    ScanQuality quality = meter.quality(boundaries, fovea);
    findings.addAll(QualityFindings.of(quality, QualityRules.DEFAULT, scan.document().location()));
    RegionLabels regions = new RegionFinder(loaded, meter, boundaries).find(loop);
    return new SegmentationResult(
        Optional.of(boundaries), fovea, meter.disc(), regions, findings, quality);
  }

  private static SegmentationResult refused(
      LoadedScan loaded, List<Finding> findings, Optional<Finding> refusal) {
    refusal.ifPresent(findings::add);
    return new SegmentationResult(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        RegionLabels.none(loaded.scan().size()),
        findings,
        QualityMeter.refused(loaded));
  }

  private static Finding finding(OctScan scan, FindingKind kind, String detail) {
    return new Finding(kind, scan.document().location(), detail);
  }

  private static void noteUnreadable(LoadedScan loaded, List<Finding> findings) {
    if (loaded.unreadable().isEmpty()) {
      return;
    }
    String which =
        loaded.unreadable().keySet().stream().map(String::valueOf).collect(Collectors.joining(" "));
    String reason = loaded.unreadable().values().iterator().next();
    FindingKind kind =
        loaded.unreadable().size() == loaded.frames()
            ? FindingKind.UNREADABLE_FILE
            : FindingKind.FRAMES_UNREADABLE;
    findings.add(finding(loaded.scan(), kind, "frames " + which + " not decoded: " + reason));
  }

  private static Optional<Finding> refusal(LoadedScan loaded, RetinaLook look) {
    if (look.brighterInFront() > BRIGHTER_IN_FRONT && look.upsideDownLead() > UPSIDE_DOWN_LEAD) {
      return Optional.of(
          finding(
              loaded.scan(),
              FindingKind.UPSIDE_DOWN,
              "the frames look like a retina with the choroid at the top"));
    }
    if (look.score() < LEAST_SCORE) {
      return Optional.of(
          finding(
              loaded.scan(),
              FindingKind.NO_RETINA,
              String.format(
                  Locale.ROOT,
                  "evidence for a retina is %.2f, %.2f is needed",
                  look.score(),
                  LEAST_SCORE)));
    }
    return Optional.empty();
  }

  private static BoundarySet trace(LoadedScan loaded, LayerVolume layers, FrameLoop loop)
      throws InterruptedException {
    OctScan scan = loaded.scan();
    SurfaceBuilder surfaces = new SurfaceBuilder(scan.size());
    loop.run(
        loaded.frames(),
        () -> {
          FrameTracer tracer = new FrameTracer(scan.axial(), ascanMicrometres(scan));
          return frame -> {
            if (layers.paths(frame) != null) {
              surfaces.add(
                  frame,
                  tracer.trace(
                      loaded.view(frame),
                      layers.map(frame),
                      layers.paths(frame),
                      loaded.contrastToNoise(frame)),
                  loaded.margins(frame),
                  layers.map(frame),
                  scan.axial().micrometresPerPixel());
            }
          };
        });
    return surfaces.build();
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

  private static Optional<Landmark> fovea(
      OctScan scan, BoundarySet boundaries, Optional<OpticDisc> disc, List<Finding> findings) {
    Optional<ScanPath> area =
        scan.path()
            .filter(
                path ->
                    path.pattern() == ScanPattern.RASTER || path.pattern() == ScanPattern.RADIAL);
    if (area.isEmpty()) {
      return Optional.empty();
    }
    FoveaFinder finder = new FoveaFinder(area.get(), scan.axial());
    for (Boundary bottom : PIT_BOTTOMS) {
      Optional<Landmark> fovea =
          finder.find(boundaries, bottom).filter(pit -> clearOf(disc, pit.point()));
      if (fovea.isPresent()) {
        if (bottom != PIT_BOTTOMS.get(0)) {
          findings.add(
              finding(
                  scan,
                  FindingKind.FOVEA_BY_INNER_LAYERS,
                  "the whole retina shows no pit; that of ILM-" + bottom.code() + " was taken"));
        }
        return fovea;
      }
    }
    findings.add(
        finding(scan, FindingKind.FOVEA_NOT_FOUND, "no foveal pit stands out in the thickness"));
    return Optional.empty();
  }

  /** A dip beside the disc is no fovea: the two lie about 4.5 mm apart. */
  private static boolean clearOf(Optional<OpticDisc> disc, FundusPoint pit) {
    return disc.stream().allMatch(d -> d.centre().distanceMm(pit) >= LEAST_DISC_TO_FOVEA_MM);
  }
}
