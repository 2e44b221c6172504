package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.FieldPlace;
import org.isopach.analysis.cross.FieldValues;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.read.GridNumbers;
import org.isopach.dicom.read.MacularGridReport;
import org.isopach.dicom.read.MapQuantity;
import org.isopach.dicom.read.PlacedMap;
import org.junit.jupiter.api.Test;

/** What may not be set beside a scan because of its eye or of its lengths. */
class CrossObstacleTest {
  private static final Code ILM_RPE = new Code("111928", "DCM", "");
  private static final OctScan SCAN = SampleScans.right("a.dcm", 0);

  private static MeasuredScan measured(double scale) {
    return new MeasuredScan(
        SCAN,
        Optional.empty(),
        Optional.of(
            new MeasuredScan.Place(
                SCAN.path().orElseThrow(),
                new Landmark(new FundusPoint(0, 0), Landmark.Source.FOVEAL_PIT),
                scale)),
        List.of(),
        RegionLabels.none(SCAN.size()),
        List.of(),
        List.of(),
        new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.empty()),
        Optional.empty(),
        Optional.empty(),
        0,
        0);
  }

  private static PlacedMap map(Laterality eye) {
    FieldPlace place =
        new FieldPlace(new FundusPoint(-1, -1), new FundusPoint(2, 0), new FundusPoint(0, 2));
    return new PlacedMap(
        MapQuantity.of(Optional.of(ILM_RPE)),
        "",
        Optional.of(eye),
        Set.of(),
        new FieldValues(1, 1, new float[] {250}),
        List.of(new PlacedMap.FromFovea(place)),
        "");
  }

  private static CrossLines lines() {
    return new CrossLines(
        SCAN.identity(), SCAN.laterality(), new CrossLine.Source("map", "2.25.1", "", "", ""));
  }

  /** Our own maps of a scan in patient coordinates have corrected lengths already. */
  @Test
  void aFoveaJoinsOnlyLengthsAsTheyAreStated() {
    PlacedMap map = map(Laterality.RIGHT);
    assertEquals("fovea", new MapPlacer(measured(1)).place(map).orElseThrow().way());
    MapPlacer corrected = new MapPlacer(measured(1.05));
    assertTrue(corrected.place(map).isEmpty());
    assertTrue(corrected.obstacle(map).contains("factor 1.05"), corrected.obstacle(map));
  }

  @Test
  void aMapOfTheOtherEyeIsRefused() {
    MapCheck check = new MapCheck(measured(1), lines(), new SectorTabulator());
    String other = check.of(List.of(map(Laterality.LEFT))).get(0).verdict().reason();
    assertTrue(other.contains("it is of the other eye: L, the scan is of R"), other);
    String same = check.of(List.of(map(Laterality.RIGHT))).get(0).verdict().reason();
    assertFalse(same.contains("other eye"), same);
  }

  @Test
  void aReportIsNotComparedWithCorrectedLengths() {
    MacularGridReport report =
        new MacularGridReport(
            Laterality.RIGHT,
            Optional.of(ILM_RPE),
            new GridNumbers(Map.of("centre", 250.0), Map.of(), Set.of()),
            Set.of());
    for (CrossLine line : new GridReportCheck(measured(1.05), lines()).of(report)) {
      assertTrue(line.verdict().reason().contains("factor 1.05"), line.verdict().reason());
    }
    CrossLine stated = new GridReportCheck(measured(1), lines()).of(report).get(0);
    assertEquals("no sector was measured in the scan", stated.verdict().reason());
  }
}
