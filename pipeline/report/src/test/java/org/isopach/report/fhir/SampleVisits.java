package org.isopach.report.fhir;

import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Visits of an invented eye with numbers made up. */
public final class SampleVisits {
  static final Layer RETINA = new Layer(Boundary.ILM, Boundary.RPE);
  static final Layer TO_BRUCH = new Layer(Boundary.ILM, Boundary.BM);
  static final ScanIdentity SCAN =
      new ScanIdentity(
          "TSEU-1",
          "2.25.11",
          "2.25.12",
          "2.25.13",
          Optional.of(LocalDateTime.of(2026, 1, 7, 9, 30)));

  private SampleVisits() {}

  /** Returns two layers, one sector refused, and a circle of a left eye. */
  public static FhirVisit visit() {
    return visit(
        List.of(grid(RETINA, EtdrsGrids.ETDRS_1_3_6), grid(TO_BRUCH, EtdrsGrids.ETDRS_1_3_6)),
        List.of(nerve()),
        Map.of(SCAN.sopUid(), List.of(FindingKind.FOVEA_NOT_FOUND)));
  }

  /** Returns a visit of somebody in some study. */
  public static FhirVisit of(Eye eye, String studyUid) {
    return new FhirVisit(eye, studyUid, List.of(), List.of(nerve()), Map.of(), Map.of());
  }

  static FhirVisit visit(
      List<SectorTable> grids, List<NerveTable> nerves, Map<String, List<FindingKind>> flags) {
    Eye eye = new Eye("TSEU-1", "Tern Sound Eye Unit", Laterality.LEFT);
    return new FhirVisit(eye, "2.25.11", grids, nerves, flags, Map.of(SCAN.sopUid(), 1.0432));
  }

  static SectorTable grid(Layer layer, SectorGrid grid) {
    return grid(layer, grid, Landmark.Source.FOVEAL_PIT);
  }

  static SectorTable grid(Layer layer, SectorGrid grid, Landmark.Source centre) {
    List<SectorResult> results = new ArrayList<>();
    grid.sectors()
        .forEach(
            sector ->
                results.add(
                    sector.name().equals("inner-superior")
                        ? new NotMeasurable(
                            sector.name(),
                            NotMeasurable.Reason.LOW_COVERAGE,
                            1.57,
                            0.6,
                            "60.0 % of the sector has a thickness")
                        : measured(sector.name(), 251.5)));
    results.add(measured(SectorGrid.TOTAL, 300));
    return new SectorTable(
        layer,
        grid,
        Laterality.LEFT,
        new Landmark(new FundusPoint(0, 0), centre),
        SCAN,
        0.9,
        results,
        measured("centre-point", 220.25));
  }

  private static Measured measured(String sector, double um) {
    return new Measured(sector, um, 12, um - 30, um + 30, 0.785, 1);
  }

  static NerveTable nerve() {
    return nerve(AngleZero.HORIZONTAL);
  }

  static NerveTable nerve(AngleZero zero) {
    return new NerveTable(
        SCAN,
        Laterality.LEFT,
        "circle",
        OptionalDouble.of(3.46),
        zero,
        Optional.of(new FundusPoint(0, 0)),
        "circle",
        OptionalDouble.of(64),
        List.of(
            fibres("", "global", 91.3),
            fibres("quadrants", "inferior", 112),
            fibres("clock-hours", "hour-6", 140)));
  }

  private static NerveValue fibres(String scheme, String sector, double um) {
    return new NerveValue(
        NerveMeasure.FIBRES,
        "ILM-RNFL-GCL",
        scheme,
        sector,
        OptionalDouble.of(um),
        Optional.empty(),
        OptionalDouble.of(1),
        "");
  }
}
