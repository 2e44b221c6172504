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
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;

/** Compares two measured scans of one eye: aligns, maps about the common centre, subtracts. */
public final class ScanComparer {
  private final LayerMapper mapper;
  private final VisitComparer comparer;
  private final SectorGrid grid;
  private final ChangeJudge judge;
  private final ExecutorService pool;

  ScanComparer(JobRequest request, SectorTabulator tabulator, ExecutorService pool) {
    this.mapper = new LayerMapper(request, tabulator, pool);
    this.comparer = new VisitComparer(tabulator);
    this.grid = request.grid();
    this.judge = new ChangeJudge(tabulator);
    this.pool = pool;
  }

  /** Returns a comparer for what a request asks for; the pool as for {@link ScanMeasurer#of}. */
  public static ScanComparer of(JobRequest request, ExecutorService pool) {
    return new ScanComparer(request, new SectorTabulator(), pool);
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
    return new ScanChange(Workers.all(pool, work), laid.findings());
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
    VisitAlignment alignment = VisitAligner.align(place(baseline), place(followUp));
    if (alignment instanceof VisitAlignment.Aligned aligned) {
      return lay(baseline, followUp, aligned);
    }
    String detail = ((VisitAlignment.NotAligned) alignment).detail();
    return LaidVisits.refused(finding(FindingKind.NOT_COMPARABLE, followUp, baseline, detail));
  }

  private LaidVisits lay(
      MeasuredScan baseline, MeasuredScan followUp, VisitAlignment.Aligned aligned)
      throws InterruptedException {
    List<MappedLayer> before = mapped(baseline, aligned.baseline());
    List<MappedLayer> after = mapped(followUp, aligned.followUp());
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
                doubt(baseline, earlier, aligned.baseline()),
                doubt(followUp, later.get(), aligned.followUp())));
      } else {
        VisitChange.Refused refused = (VisitChange.Refused) change;
        findings.add(finding(kind(refused.reason()), followUp, baseline, refused.detail()));
        break;
      }
    }
    return new LaidVisits(aligned.method().code(), pairs, findings);
  }

  private Map<String, Double> doubt(MeasuredScan scan, MappedLayer layer, Landmark centre) {
    return SegmentationDoubt.of(
        scan.place().orElseThrow().path(),
        centre.point(),
        scan.boundaries().orElseThrow(),
        layer.map().layer(),
        grid,
        layer.map().laterality(),
        InterpolationRules.DEFAULT.minimumConfidence());
  }

  private List<MappedLayer> mapped(MeasuredScan scan, Landmark centre) throws InterruptedException {
    MeasuredScan.Place place = scan.place().orElseThrow();
    if (place.centre().equals(centre)) {
      return scan.layers();
    }
    return mapper.map(
        scan.scan(),
        scan.boundaries().orElseThrow(),
        new MeasuredScan.Place(place.path(), centre, place.lateralScale()));
  }

  private static ScanPlace place(MeasuredScan scan) {
    MeasuredScan.Place place = scan.place().orElseThrow();
    return new ScanPlace(place.centre(), place.path().frame());
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
