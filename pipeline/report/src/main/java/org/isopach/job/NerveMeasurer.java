package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.CircleResult;
import org.isopach.analysis.nerve.CircleSampler;
import org.isopach.analysis.nerve.NoCircle;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.NerveLook;
import org.isopach.segment.SegmentationResult;

/**
 * Looks what one scan shows of the nerve. Writes nothing.
 *
 * <p>A scan along a circle is read as one. A volume is searched as a macula and as a disc: a wide
 * one gives both, and the disc's cup is not taken for a fovea.
 */
final class NerveMeasurer {
  private final ScanSegmenter retina;
  private final NerveLooker nerve;
  private final AxialLengths lengths;
  private final double circleMm;

  /**
   * Makes a measurer.
   *
   * @param retina finds the boundaries of a macula
   * @param nerve finds those round the disc, and its opening
   * @param lengths the eyes' lengths
   * @param circleMm diameter of the circle laid into volumes, mm
   */
  NerveMeasurer(ScanSegmenter retina, NerveLooker nerve, AxialLengths lengths, double circleMm) {
    this.retina = retina;
    this.nerve = nerve;
    this.lengths = lengths;
    this.circleMm = circleMm;
  }

  /**
   * Returns what a scan shows.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  NerveSighting measure(OctScan scan) throws InterruptedException {
    Optional<Finding> obstacle = NerveObstacle.of(scan);
    if (obstacle.isPresent() && !NerveObstacle.boundariesOnly(obstacle.get())) {
      return NerveDraft.refused(scan, obstacle.get());
    }
    boolean volume = scan.path().map(ScanPath::pattern).filter(NerveMeasurer::isVolume).isPresent();
    return obstacle.isPresent()
        ? boundariesOnly(scan, obstacle.get())
        : volume ? volume(scan, retina.segment(scan), System.nanoTime()) : circle(scan);
  }

  /**
   * Returns what a volume shows in which a macula was looked for already; of findings only those
   * about the nerve. The maps of its layers are used where they lie round the fovea.
   */
  NerveSighting measure(MeasuredScan measured) throws InterruptedException {
    OctScan scan = measured.scan();
    NerveDraft draft = new NerveDraft(scan, scale(scan));
    Optional<ScanPath> path = scan.path().filter(p -> isVolume(p.pattern()));
    if (path.isEmpty() || scan.laterality().isEmpty() || measured.boundaries().isEmpty()) {
      return draft.sighting();
    }
    Optional<Landmark> fovea = measured.fovea();
    if (fovea.isPresent() && !mayShowDisc(measured)) {
      macula(measured, draft);
      return draft.sighting();
    }
    NerveLook look = nerve.look(scan);
    boolean macula =
        fovea
            .filter(
                pit -> PitCheck.isFovea(pit.point(), path.get(), look.boundaries(), look.opening()))
            .isPresent();
    if (macula) {
      macula(measured, draft);
    }
    boolean wholeDisc = measured.disc().filter(OpticDisc::complete).isPresent();
    boolean noMacula = fovea.isEmpty() && path.get().pattern() == ScanPattern.RADIAL;
    if (wholeDisc || noMacula || (!macula && measured.disc().isPresent())) {
      look.findings().stream()
          .filter(finding -> finding.kind() == FindingKind.OPENING_NOT_SEEN)
          .forEach(draft::say);
    }
    disc(new VolumeReader(scan, draft.scale().of(path.get())), look, draft);
    return draft.sighting();
  }

  private static boolean mayShowDisc(MeasuredScan measured) {
    ScanPath path = measured.scan().path().orElseThrow();
    return path.pattern() == ScanPattern.RADIAL
        || measured.disc().filter(OpticDisc::complete).isPresent()
        || !PitCheck.isFovea(
            measured.fovea().orElseThrow().point(), path, measured.boundaries(), Optional.empty());
  }

  private static void macula(MeasuredScan measured, NerveDraft draft) {
    draft.macula(measured.fovea().orElseThrow(), measured.disc());
    draft.ganglion(
        measured.layers().stream()
            .map(MappedLayer::map)
            .filter(map -> map.centre().source() == Landmark.Source.FOVEAL_PIT)
            .filter(map -> VolumeReader.GANGLION.contains(map.layer()))
            .toList());
  }

  static boolean isVolume(ScanPattern pattern) {
    return pattern == ScanPattern.RASTER || pattern == ScanPattern.RADIAL;
  }

  private NerveSighting boundariesOnly(OctScan scan, Finding why) throws InterruptedException {
    NerveDraft draft = new NerveDraft(scan, scale(scan));
    NerveLook look = nerve.look(scan);
    draft.looked(look.boundaries(), look.quality(), look.findings());
    draft.say(why);
    return draft.sighting();
  }

  private EyeScale scale(OctScan scan) {
    return new EyeScale(lengths.factor(scan).orElse(1.0));
  }

  private NerveSighting circle(OctScan scan) throws InterruptedException {
    NerveDraft draft = new NerveDraft(scan, scale(scan));
    NerveLook look = nerve.look(scan);
    draft.looked(look.boundaries(), look.quality(), look.findings());
    if (look.boundaries().isEmpty()) {
      return draft.sighting();
    }
    ScanPath path = draft.scale().of(scan.path().orElseThrow());
    CircleResult result =
        CircleSampler.ofCircleScan(
            scan,
            path,
            look.boundaries().get(),
            CircleSight.FIBRES,
            InterpolationRules.DEFAULT.minimumConfidence(),
            AngleZero.HORIZONTAL);
    if (result instanceof NoCircle none) {
      draft.say(NerveObstacle.of(scan, none));
      return draft.sighting();
    }
    CircleProfile profile = (CircleProfile) result;
    Optional<Finding> elsewhere = NerveObstacle.tooThin(scan, profile);
    if (elsewhere.isPresent()) {
      draft.say(elsewhere.get());
    } else {
      CircleValues along =
          CircleValues.along(path, profile.centre(), scan.laterality().orElseThrow());
      draft.circle(CircleSight.of(profile, look.boundaries().get(), along));
    }
    return draft.sighting();
  }

  private NerveSighting volume(OctScan scan, SegmentationResult found, long start)
      throws InterruptedException {
    NerveDraft draft = new NerveDraft(scan, scale(scan));
    VolumeReader reader = new VolumeReader(scan, draft.scale().of(scan.path().orElseThrow()));
    NerveLook look = nerve.look(scan);
    Optional<Landmark> fovea =
        found
            .fovea()
            .filter(pit -> found.boundaries().isPresent())
            .filter(
                pit ->
                    PitCheck.isFovea(
                        pit.point(), scan.path().orElseThrow(), look.boundaries(), look.opening()));
    if (fovea.isPresent()) {
      draft.looked(found.boundaries(), found.quality(), found.findings());
      draft.macula(fovea.get(), found.disc());
      draft.ganglion(ganglion(reader, found.boundaries().orElseThrow(), draft, fovea.get()));
      if (look.opening().isPresent() || found.disc().filter(OpticDisc::complete).isPresent()) {
        draft.sayOnce(look.findings());
      }
    } else {
      draft.looked(look.boundaries(), look.quality(), look.findings());
    }
    disc(reader, look, draft);
    draft.saidOfVolume();
    return draft.sighting(start);
  }

  private static List<ThicknessMap> ganglion(
      VolumeReader reader, BoundarySet boundaries, NerveDraft draft, Landmark fovea) {
    Landmark centre = new Landmark(draft.scale().of(fovea.point()), fovea.source());
    return new ArrayList<>(reader.ganglion(boundaries, centre));
  }

  private void disc(VolumeReader reader, NerveLook look, NerveDraft draft) {
    look.fovea()
        .filter(
            pit ->
                PitCheck.isFovea(pit.point(), reader.scanPath(), look.boundaries(), look.opening()))
        .ifPresent(draft::foveaIfNone);
    if (look.boundaries().isEmpty()
        || look.opening().isEmpty()
        || look.innerSurface().isEmpty()
        || !look.boundaries().get().has(CircleSight.FIBRES)) {
      return;
    }
    EyeScale scale = draft.scale();
    DiscSight disc =
        reader.disc(
            look.boundaries().get(),
            scale.of(look.opening().get()),
            scale.of(look.innerSurface().get()));
    draft.disc(disc);
    draft.circle(reader.circle(look.boundaries().get(), disc.fibres().orElseThrow(), circleMm));
  }
}
