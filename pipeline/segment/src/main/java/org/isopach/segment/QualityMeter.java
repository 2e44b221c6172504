package org.isopach.segment;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.quality.FrameQuality;
import org.isopach.analysis.quality.FrameState;
import org.isopach.analysis.quality.QualityRules;
import org.isopach.analysis.quality.ScanQuality;

/**
 * Measures how good a scan is, and takes out the depths that are too poor. What is measured is
 * defined in {@code docs/measurements.md}.
 */
final class QualityMeter {
  private static final QualityRules RULES = QualityRules.DEFAULT;

  private final LoadedScan loaded;
  private final FrameLook[] looks;
  private final float[][] outerEvidence;
  private Optional<DiscFinder.Found> disc = Optional.empty();

  private QualityMeter(LoadedScan loaded) {
    this.loaded = loaded;
    this.looks = new FrameLook[loaded.frames()];
    this.outerEvidence = new float[loaded.frames()][];
  }

  /** Returns the quality of a scan that was refused as a whole: its frames' signal only. */
  static ScanQuality refused(LoadedScan loaded) {
    QualityMeter meter = new QualityMeter(loaded);
    List<FrameQuality> frames = new ArrayList<>();
    for (int f = 0; f < loaded.frames(); f++) {
      frames.add(meter.frame(f, Optional.empty(), Optional.empty(), Double.NaN));
    }
    return new ScanQuality(frames, OptionalDouble.empty(), OptionalDouble.empty());
  }

  /** Looks at the usable frames of a scan whose boundaries were traced, and for the disc. */
  static QualityMeter look(LoadedScan loaded, BoundarySet traced, FrameLoop loop)
      throws InterruptedException {
    QualityMeter meter = lookAtFrames(loaded, traced, loop);
    meter.disc =
        loaded
            .scan()
            .path()
            .flatMap(path -> new DiscFinder(path, loaded.grid(), meter.outerEvidence).find());
    return meter;
  }

  /** Looks at the usable frames of a scan whose boundaries were traced, not for the disc. */
  static QualityMeter lookAtFrames(LoadedScan loaded, BoundarySet traced, FrameLoop loop)
      throws InterruptedException {
    QualityMeter meter = new QualityMeter(loaded);
    loop.run(
        loaded.frames(),
        () -> {
          MirrorImage mirror = new MirrorImage(loaded);
          FrameEdges edges = new FrameEdges(loaded, traced);
          OuterEvidence outer = new OuterEvidence(loaded);
          return frame -> {
            if (loaded.usable(frame)) {
              meter.looks[frame] = meter.look(frame, edges, mirror);
              boolean clear = meter.clear(meter.decibels(frame).orElse(0));
              if (clear && meter.looks[frame].whole()) {
                meter.outerEvidence[frame] = outer.along(frame);
              }
            }
          };
        });
    return meter;
  }

  private FrameLook look(int frame, FrameEdges edges, MirrorImage mirror) {
    double db = decibels(frame).orElse(0);
    if (db < RULES.leastFrameDb()) {
      return new FrameLook(true, Optional.empty(), Optional.empty());
    }
    boolean[] cutOff = edges.cutOff(frame);
    return new FrameLook(
        false,
        Optional.of(cutOff),
        clear(db) ? Optional.of(withCutOff(mirror.folded(frame), cutOff)) : Optional.empty());
  }

  /** Where the retina crosses the top of a folded frame, both images lie over each other. */
  private static boolean[] withCutOff(boolean[] folded, boolean[] cutOff) {
    boolean[] all = folded.clone();
    boolean any = false;
    for (boolean flag : folded) {
      any |= flag;
    }
    for (int a = 0; any && a < all.length; a++) {
      all[a] |= cutOff[a];
    }
    return all;
  }

  private boolean clear(double frameDb) {
    return Math.min(frameDb, 20 * Math.log10(loaded.contrastToNoise())) >= RULES.clearDb();
  }

  /** Returns boundaries without the depths that are too poor. */
  BoundarySet gate(BoundarySet boundaries) {
    BoundarySet kept = QualityGate.apply(boundaries, looks);
    return disc.map(found -> QualityGate.withoutOuter(kept, found, loaded.grid())).orElse(kept);
  }

  /** Returns whether a usable frame is far enough from the noise to be measured. */
  boolean trusts(int frame) {
    return looks[frame] != null && !looks[frame].lowSignal();
  }

  /** Returns whether an A-scan of a usable frame shows the retina alone, and not the disc. */
  boolean trusts(int frame, int ascan) {
    int column = (int) Math.round(loaded.grid().column(ascan));
    return looks[frame].keeps(ascan)
        && disc.map(found -> !found.contains(frame, column)).orElse(true);
  }

  /** Returns the optic disc, or empty when it is not in view. */
  Optional<OpticDisc> disc() {
    return disc.map(DiscFinder.Found::disc);
  }

  /**
   * Returns the quality of the scan.
   *
   * @param kept what the gate left
   */
  ScanQuality quality(BoundarySet kept, Optional<Landmark> fovea) {
    return quality(kept, fovea, loaded.scan().path(), 0);
  }

  /**
   * Returns the quality of a scan that was read with A-scans added on either side of each frame:
   * they count in no share. Signal and saturation are those of the frame as it was read.
   *
   * @param kept what the gate left, without the A-scans added
   * @param path of the scan, likewise
   * @param spare number of A-scans added on either side
   */
  ScanQuality quality(
      BoundarySet kept, Optional<Landmark> fovea, Optional<ScanPath> path, int spare) {
    double[] steps =
        MotionSteps.of(
            kept.surface(Boundary.BM).orElseThrow(),
            path,
            loaded.scan().axial().micrometresPerPixel());
    List<FrameQuality> frames = new ArrayList<>();
    for (int f = 0; f < loaded.frames(); f++) {
      Optional<FrameLook> look = Optional.ofNullable(looks[f]).map(one -> one.without(spare));
      frames.add(frame(f, look, Optional.of(kept), steps[f]));
    }
    return new ScanQuality(
        frames,
        place(fovea, (where, point) -> point.distanceMm(where.middle())),
        place(fovea, QualityMeter::toEdge));
  }

  private FrameQuality frame(
      int f, Optional<FrameLook> look, Optional<BoundarySet> kept, double step) {
    Map<Boundary, Double> covered = new EnumMap<>(Boundary.class);
    kept.ifPresent(
        set -> set.boundaries().forEach(b -> covered.put(b, covered(surface(set, b), f))));
    return new FrameQuality(
        f,
        state(f, look),
        loaded.readable(f) ? decibels(f) : OptionalDouble.empty(),
        loaded.readable(f) ? OptionalDouble.of(loaded.saturated(f)) : OptionalDouble.empty(),
        look.map(FrameLook::cutOff).orElse(OptionalDouble.empty()),
        look.map(FrameLook::folded).orElse(OptionalDouble.empty()),
        Double.isNaN(step) ? OptionalDouble.empty() : OptionalDouble.of(step),
        covered,
        kept.map(set -> OptionalDouble.of(confidence(set, f))).orElse(OptionalDouble.empty()));
  }

  private FrameState state(int frame, Optional<FrameLook> look) {
    if (!loaded.readable(frame)) {
      return FrameState.UNREADABLE;
    }
    if (!loaded.usable(frame)) {
      return loaded.constant() ? FrameState.REFUSED : FrameState.DARK;
    }
    if (look.isEmpty()) {
      return FrameState.REFUSED;
    }
    return look.get().lowSignal() ? FrameState.LOW_SIGNAL : FrameState.MEASURED;
  }

  /** Returns the contrast over the noise in dB; empty without contrast. */
  private OptionalDouble decibels(int frame) {
    double ratio = loaded.contrastToNoise(frame);
    return ratio > 0 ? OptionalDouble.of(20 * Math.log10(ratio)) : OptionalDouble.empty();
  }

  private static BoundarySurface surface(BoundarySet set, Boundary boundary) {
    return set.surface(boundary).orElseThrow();
  }

  private static double covered(BoundarySurface surface, int frame) {
    int n = 0;
    for (int a = 0; a < surface.ascans(); a++) {
      n += surface.confidence(frame, a) >= RULES.leastConfidence() ? 1 : 0;
    }
    return (double) n / surface.ascans();
  }

  private static double confidence(BoundarySet set, int frame) {
    double sum = 0;
    for (Boundary boundary : set.boundaries()) {
      BoundarySurface surface = surface(set, boundary);
      for (int a = 0; a < set.ascans(); a++) {
        sum += surface.confidence(frame, a);
      }
    }
    return Math.min(1, sum / ((double) set.boundaries().size() * set.ascans()));
  }

  private interface Distance {
    double of(ScanPath path, FundusPoint point);
  }

  private OptionalDouble place(Optional<Landmark> fovea, Distance distance) {
    Optional<ScanPath> path = loaded.scan().path();
    if (path.isEmpty() || fovea.isEmpty()) {
      return OptionalDouble.empty();
    }
    return OptionalDouble.of(distance.of(path.get(), fovea.get().point()));
  }

  private static double toEdge(ScanPath path, FundusPoint point) {
    FundusPoint away = point.minus(path.middle());
    double x = path.extent().xMm() / 2 - Math.abs(away.xMm());
    double y = path.extent().yMm() / 2 - Math.abs(away.yMm());
    return Math.max(0, Math.min(x, y));
  }
}
