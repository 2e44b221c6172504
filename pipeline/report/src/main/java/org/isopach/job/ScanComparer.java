package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import org.isopach.align.ScanPlace;
import org.isopach.align.VisitAligner;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.change.ChangeJudge;
import org.isopach.analysis.change.RepeatNoise;
import org.isopach.analysis.change.RepeatPair;
import org.isopach.analysis.change.SegmentationDoubt;
import org.isopach.analysis.change.VisitChange;
import org.isopach.analysis.change.VisitComparer;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.StatedRegistrations;

/** Compares two measured scans of one eye: lays one on the other, maps both, subtracts. */
public final class ScanComparer {
  private final LayerMapper mapper;
  private final VisitComparer comparer;
  private final SectorGrid grid;
  private final ChangeJudge judge;
  private final ExecutorService pool;
  private final StatedRegistrations registrations;
  private final ShadowStore shadows;

  ScanComparer(
      JobRequest request,
      SectorTabulator tabulator,
      StatedRegistrations registrations,
      ShadowStore shadows,
      ExecutorService pool) {
    this.shadows = shadows;
    this.registrations = registrations;
    this.mapper = new LayerMapper(request, tabulator, pool);
    this.comparer = new VisitComparer(tabulator);
    this.grid = request.grid();
    this.judge = new ChangeJudge(tabulator);
    this.pool = pool;
  }

  /** Returns a comparer for what a request asks for; the pool as for {@link ScanMeasurer#of}. */
  public static ScanComparer of(JobRequest request, ExecutorService pool) {
    return of(request, StatedRegistrations.NONE, pool);
  }

  /** Returns the same, honouring registrations that objects state. */
  public static ScanComparer of(
      JobRequest request, StatedRegistrations registrations, ExecutorService pool) {
    return new ScanComparer(request, new SectorTabulator(), registrations, new ShadowStore(), pool);
  }

  /** Returns follow-up against baseline without a word of noise; both must have been mapped. */
  public ScanChange compare(MeasuredScan baseline, MeasuredScan followUp)
      throws InterruptedException {
    return compare(baseline, followUp, NoiseModel.UNKNOWN);
  }

  /** Returns follow-up against baseline, judged by a noise; both must have been mapped. */
  public ScanChange compare(MeasuredScan baseline, MeasuredScan followUp, NoiseModel noise)
      throws InterruptedException {
    LaidVisits laid = lay(baseline, followUp);
    List<Callable<ScanChange.LayerChange>> work = new ArrayList<>();
    for (RepeatPair pair : laid.pairs()) {
      RepeatNoise known = noise.of(pair.compared().table().layer());
      work.add(() -> ScanChange.LayerChange.of(pair, judge.judge(pair, known), laid.alignment()));
    }
    return new ScanChange(Workers.all(pool, work), laid.findings(), laid.laid());
  }

  /** Returns two scans laid on one another in every layer, or why they are not. */
  public LaidVisits lay(MeasuredScan baseline, MeasuredScan followUp) throws InterruptedException {
    if (SamePicture.of(baseline, followUp)) {
      return LaidVisits.refused(
          finding(
              FindingKind.NOT_COMPARABLE,
              followUp,
              baseline,
              "both objects hold the same picture, pixel by pixel, under two identifiers"));
    }
    Optional<FundusTransform> between = stated(baseline, followUp);
    VisitAlignment alignment = VisitAligner.align(place(baseline), place(followUp), between);
    if (alignment instanceof VisitAlignment.Aligned aligned) {
      return lay(baseline, followUp, aligned)
          .and(AlignmentFindings.of(baseline, followUp, aligned, between));
    }
    String detail = ((VisitAlignment.NotAligned) alignment).detail();
    return LaidVisits.refused(finding(FindingKind.NOT_COMPARABLE, followUp, baseline, detail));
  }

  private LaidVisits lay(
      MeasuredScan baseline, MeasuredScan followUp, VisitAlignment.Aligned aligned)
      throws InterruptedException {
    MeasuredScan.Place first = baseline.place().orElseThrow();
    MeasuredScan.Place second = followUp.place().orElseThrow();
    List<MappedLayer> before = mapped(baseline, first.about(aligned.baseline()));
    MeasuredScan.Place laid = second.laid(aligned.followUpPath(), aligned.followUp());
    List<MappedLayer> after = mapped(followUp, laid);
    List<RepeatPair> pairs = new ArrayList<>();
    List<Finding> findings = new ArrayList<>();
    for (MappedLayer earlier : before) {
      Optional<MappedLayer> later =
          after.stream().filter(one -> one.map().layer().equals(earlier.map().layer())).findFirst();
      if (later.isEmpty()) {
        continue;
      }
      VisitChange change =
          comparer.compare(
              new VisitMap(earlier.map(), baseline.scan().axial()),
              new VisitMap(later.get().map(), followUp.scan().axial()),
              grid,
              LayerMapper.MINIMUM_COVERAGE);
      if (change instanceof VisitChange.Compared compared) {
        pairs.add(
            new RepeatPair(
                compared,
                aligned.placeSdMm(),
                doubt(baseline, earlier, first.path(), aligned.baseline()),
                doubt(followUp, later.get(), laid.path(), laid.centre())));
      } else {
        VisitChange.Refused refused = (VisitChange.Refused) change;
        findings.add(finding(kind(refused.reason()), followUp, baseline, refused.detail()));
        break;
      }
    }
    return new LaidVisits(
        aligned.method().code(),
        pairs,
        findings,
        Optional.of(LaidPair.of(baseline, followUp, aligned)));
  }

  private Map<String, Double> doubt(
      MeasuredScan scan, MappedLayer layer, ScanPath path, Landmark centre) {
    return SegmentationDoubt.of(
        path,
        centre.point(),
        scan.boundaries().orElseThrow(),
        layer.map().layer(),
        grid,
        layer.map().laterality(),
        InterpolationRules.DEFAULT.minimumConfidence());
  }

  private List<MappedLayer> mapped(MeasuredScan scan, MeasuredScan.Place place)
      throws InterruptedException {
    return scan.place().orElseThrow().equals(place)
        ? scan.layers()
        : mapper.map(scan.scan(), scan.boundaries().orElseThrow(), place);
  }

  private ScanPlace place(MeasuredScan scan) {
    MeasuredScan.Place place = scan.place().orElseThrow();
    return new ScanPlace(place.centre(), place.path(), shadows.of(scan));
  }

  /** What takes the follow-up's coordinates to the baseline's, both in the mm of their maps. */
  private Optional<FundusTransform> stated(MeasuredScan baseline, MeasuredScan followUp) {
    MeasuredScan.Place first = baseline.place().orElseThrow();
    MeasuredScan.Place second = followUp.place().orElseThrow();
    return registrations
        .between(second.path().frame(), first.path().frame())
        .map(one -> one.withLengths(second.lateralScale(), first.lateralScale()));
  }

  private static FindingKind kind(VisitChange.Reason reason) {
    return switch (reason) {
      case DIFFERENT_LAYER, DIFFERENT_REFRACTIVE_INDEX -> FindingKind.DEFINITIONS_DIFFER;
      case UNKNOWN_PATIENT -> FindingKind.NO_PATIENT;
      case SAME_OBJECT,
          DIFFERENT_PATIENT,
          DIFFERENT_LATERALITY,
          DIFFERENT_LATTICE,
          LOOKS_MIRRORED,
          NO_COMMON_PLACE ->
          FindingKind.NOT_COMPARABLE;
    };
  }

  private static Finding finding(
      FindingKind kind, MeasuredScan followUp, MeasuredScan baseline, String detail) {
    return new Finding(
        kind,
        followUp.scan().document().location(),
        "no change from " + baseline.scan().document().location() + ": " + detail);
  }
}
