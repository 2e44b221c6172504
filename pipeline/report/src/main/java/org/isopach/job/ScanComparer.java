package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import org.isopach.align.ScanPlace;
import org.isopach.align.VisitAligner;
import org.isopach.align.VisitAlignment;
import org.isopach.analysis.change.VisitChange;
import org.isopach.analysis.change.VisitComparer;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.Landmark;
import org.isopach.report.table.AlignedChange;

/** Compares two measured scans of one eye: aligns, maps about the common centre, subtracts. */
public final class ScanComparer {
  private final LayerMapper mapper;
  private final VisitComparer comparer;
  private final SectorGrid grid;

  ScanComparer(LayerMapper mapper, VisitComparer comparer, SectorGrid grid) {
    this.mapper = mapper;
    this.comparer = comparer;
    this.grid = grid;
  }

  /** Returns a comparer for what a request asks for; the pool as for {@link ScanMeasurer#of}. */
  public static ScanComparer of(JobRequest request, ExecutorService pool) {
    SectorTabulator tabulator = new SectorTabulator();
    return new ScanComparer(
        new LayerMapper(request, tabulator, pool), new VisitComparer(tabulator), request.grid());
  }

  /** Returns follow-up against baseline; both must have been mapped. */
  public ScanChange compare(MeasuredScan baseline, MeasuredScan followUp)
      throws InterruptedException {
    VisitAlignment alignment = VisitAligner.align(place(baseline), place(followUp));
    if (alignment instanceof VisitAlignment.Aligned aligned) {
      return compare(
          baseline,
          mapped(baseline, aligned.baseline()),
          followUp,
          mapped(followUp, aligned.followUp()),
          aligned.method().code());
    }
    String detail = ((VisitAlignment.NotAligned) alignment).detail();
    return ScanChange.refused(finding(FindingKind.NOT_COMPARABLE, followUp, baseline, detail));
  }

  private ScanChange compare(
      MeasuredScan baseline,
      List<MappedLayer> before,
      MeasuredScan followUp,
      List<MappedLayer> after,
      String alignment) {
    List<ScanChange.LayerChange> layers = new ArrayList<>();
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
        layers.add(
            new ScanChange.LayerChange(
                compared.map(), new AlignedChange(compared.table(), alignment)));
      } else {
        VisitChange.Refused refused = (VisitChange.Refused) change;
        findings.add(finding(kind(refused.reason()), followUp, baseline, refused.detail()));
        break;
      }
    }
    return new ScanChange(layers, findings);
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
      case SAME_OBJECT, DIFFERENT_PATIENT, DIFFERENT_LATERALITY, DIFFERENT_LATTICE ->
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
