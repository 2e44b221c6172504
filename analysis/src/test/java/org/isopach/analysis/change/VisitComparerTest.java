package org.isopach.analysis.change;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.OptionalDouble;
import java.util.OptionalLong;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.testing.Scans;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class VisitComparerTest {
  private static final MapLattice LATTICE = MapLattice.centred(3.0, 0.05);
  private static final ScanIdentity FIRST =
      Scans.identity("TSE-0001", "2.25.21", "2026-01-30T23:50:00");
  private static final ScanIdentity SECOND =
      Scans.identity("TSE-0001", "2.25.22", "2026-03-01T00:10:00");
  private static final AxialScale AXIAL = AxialScale.ofMicrometresPerPixel(3.87);

  private final SectorTabulator tabulator = new SectorTabulator();

  @Test
  void subtractsTheBaselineEverywhere() {
    VisitChange.Compared compared =
        compared(visit(FIRST, (x, y) -> 300 + x), visit(SECOND, (x, y) -> 330 + x));

    SectorChange.MeasuredChange total = measured(compared, "total");
    assertEquals(300, total.baselineUm(), 1e-5);
    assertEquals(330, total.followUpUm(), 1e-5);
    assertEquals(30, total.changeUm(), 1e-5);
    assertEquals(10, total.changePercent(), 1e-5);
    assertEquals(9 * Math.PI, total.areaMm2(), 1e-9);
    assertEquals(10, compared.table().sectors().size());
    assertEquals(30, compared.map().micrometres(60, 3), 1e-4);
    assertEquals(1.0, compared.map().coveredFraction());
    assertEquals(
        30,
        assertInstanceOf(SectorChange.MeasuredChange.class, compared.table().centrePoint())
            .changeUm(),
        1e-5);
  }

  @Test
  void countsCalendarDays() {
    assertEquals(OptionalLong.of(30), days(FIRST, SECOND));
    assertEquals(OptionalLong.of(-30), days(SECOND, FIRST));
    ScanIdentity undated = Scans.identity("TSE-0001", "2.25.23", "");
    assertEquals(OptionalLong.empty(), days(FIRST, undated));
    assertEquals(OptionalLong.empty(), days(undated, SECOND));
  }

  @Test
  void comparesOnlyWhatBothVisitsCover() {
    // A steep slope, and a strip that only the baseline has: unequal cover must not look like
    // change.
    Surface slope = (x, y) -> 300 + 40 * x;
    Surface cut = (x, y) -> x > 2.8 ? Double.NaN : 300 + 40 * x;
    VisitMap baseline = visit(FIRST, slope);
    VisitMap followUp = visit(SECOND, cut);

    VisitChange.Compared compared = compared(baseline, followUp);

    double own = own(baseline.map(), "outer-nasal");
    double ownLater = own(followUp.map(), "outer-nasal");
    assertTrue(own - ownLater > 1, "the cut must matter: " + own + " and " + ownLater);
    SectorChange.MeasuredChange change = measured(compared, "outer-nasal");
    assertEquals(0, change.changeUm(), 1e-12);
    assertEquals(ownLater, change.baselineUm(), 1e-12);
    assertTrue(change.coveredFraction() < 1 && change.coveredFraction() > 0.9);
    assertTrue(Float.isNaN(compared.map().micrometres(60, 120)));
    assertEquals(0f, compared.map().micrometres(60, 0));
  }

  @Test
  void leavesOutWhatOnlyTheFollowUpCovers() {
    VisitMap baseline = visit(FIRST, (x, y) -> x > 2.8 ? Double.NaN : 300 + 40 * x);
    VisitMap followUp = visit(SECOND, (x, y) -> 300 + 40 * x);

    SectorChange.MeasuredChange change = measured(compared(baseline, followUp), "outer-nasal");

    assertEquals(0, change.changeUm(), 1e-12);
    assertEquals(own(baseline.map(), "outer-nasal"), change.followUpUm(), 1e-12);
  }

  @Test
  void refusesASectorThatTheVisitsTogetherCoverTooLittleOf() {
    // Either visit alone has 93 % of the outer nasal sector, both together 86 %.
    VisitMap baseline = visit(FIRST, (x, y) -> Math.abs(y - 0.4) < 0.11 ? Double.NaN : 300);
    VisitMap followUp = visit(SECOND, (x, y) -> Math.abs(y + 0.4) < 0.11 ? Double.NaN : 310);

    VisitChange.Compared compared = compared(baseline, followUp);

    assertEquals(300, own(baseline.map(), "outer-nasal"), 1e-9);
    assertEquals(310, own(followUp.map(), "outer-nasal"), 1e-9);
    SectorChange.NotMeasurableChange nasal =
        assertInstanceOf(
            SectorChange.NotMeasurableChange.class,
            compared.table().sector("outer-nasal").orElseThrow());
    assertEquals(NotMeasurable.Reason.LOW_COVERAGE, nasal.reason());
    assertEquals(10, measured(compared, "outer-superior").changeUm(), 1e-9);
    assertEquals(
        NotMeasurable.Reason.INCOMPLETE_GRID,
        assertInstanceOf(
                SectorChange.NotMeasurableChange.class,
                compared.table().sector("total").orElseThrow())
            .reason());
  }

  @Test
  void hasNoPercentOfNothing() {
    SectorChange.MeasuredChange change =
        measured(compared(visit(FIRST, (x, y) -> 0), visit(SECOND, (x, y) -> 5)), "centre");

    assertEquals(5, change.changeUm());
    assertTrue(Double.isNaN(change.changePercent()));
  }

  @Test
  void refusesTheSameObjectTwice() {
    VisitMap visit = visit(FIRST, (x, y) -> 300);

    assertEquals(VisitChange.Reason.SAME_OBJECT, refused(visit, visit));
  }

  @ParameterizedTest
  @CsvSource({"TSE-0002, DIFFERENT_PATIENT", "'', UNKNOWN_PATIENT"})
  void refusesAnotherPatient(String patientId, VisitChange.Reason expected) {
    ScanIdentity other = Scans.identity(patientId, "2.25.22", "2026-03-01T00:10:00");

    assertEquals(expected, refused(visit(FIRST, (x, y) -> 300), visit(other, (x, y) -> 300)));
  }

  @Test
  void refusesTheOtherEye() {
    ThicknessMap left = Scans.map(LATTICE, Laterality.LEFT, SECOND, (x, y) -> 300);

    assertEquals(
        VisitChange.Reason.DIFFERENT_LATERALITY,
        refused(visit(FIRST, (x, y) -> 300), new VisitMap(left, AXIAL)));
  }

  @Test
  void refusesAnotherLayer() {
    ThicknessMap same = Scans.map(LATTICE, Laterality.RIGHT, SECOND, (x, y) -> 300);
    ThicknessMap toRpe =
        new ThicknessMap(
            Layer.ILM_RPE,
            Laterality.RIGHT,
            LATTICE,
            same.centre(),
            SECOND,
            same.document(),
            new float[LATTICE.cells()]);

    assertEquals(
        VisitChange.Reason.DIFFERENT_LAYER,
        refused(visit(FIRST, (x, y) -> 300), new VisitMap(toRpe, AXIAL)));
  }

  @Test
  void refusesAnotherLattice() {
    ThicknessMap coarse =
        Scans.map(MapLattice.centred(3.0, 0.1), Laterality.RIGHT, SECOND, (x, y) -> 300);

    assertEquals(
        VisitChange.Reason.DIFFERENT_LATTICE,
        refused(visit(FIRST, (x, y) -> 300), new VisitMap(coarse, AXIAL)));
  }

  @ParameterizedTest
  @CsvSource({
    "1.36, 1.38, false",
    "1.38, 1.38, true",
    "1.38, , false",
    ", 1.38, false",
    ", , true"
  })
  void refusesAnotherRefractiveIndex(Double before, Double after, boolean comparable) {
    VisitMap baseline =
        new VisitMap(Scans.map(LATTICE, Laterality.RIGHT, FIRST, (x, y) -> 300), axial(before));
    VisitMap followUp =
        new VisitMap(Scans.map(LATTICE, Laterality.RIGHT, SECOND, (x, y) -> 300), axial(after));

    VisitChange change = compare(baseline, followUp);

    if (comparable) {
      assertInstanceOf(VisitChange.Compared.class, change);
    } else {
      assertEquals(VisitChange.Reason.DIFFERENT_REFRACTIVE_INDEX, refused(baseline, followUp));
    }
  }

  @Test
  void refusesWhatLooksLikeTheOtherEye() {
    // In health the outer nasal sector is the thicker one by 33.7 µm (BMC Ophthalmol 2018;18:169).
    Surface right = (x, y) -> 300 + 8 * x;
    VisitMap baseline = visit(FIRST, right);
    VisitMap turned = visit(SECOND, (x, y) -> right.micrometres(-x, y));
    VisitMap swollen = visit(SECOND, (x, y) -> right.micrometres(x, y) + (x < -1 ? 40 : 0));

    assertEquals(VisitChange.Reason.LOOKS_MIRRORED, refused(baseline, turned));
    assertInstanceOf(
        VisitChange.Compared.class,
        compare(baseline, visit(SECOND, (x, y) -> 300 + 3 * x)),
        "a flatter retina is not turned round");
    assertInstanceOf(
        VisitChange.Compared.class, compare(baseline, swollen), "nor is one swollen on one side");
  }

  @Test
  void refusesFieldsThatDoNotOverlap() {
    VisitMap left = visit(FIRST, (x, y) -> x < 0 ? 300 : Double.NaN);
    VisitMap right = visit(SECOND, (x, y) -> x > 0 ? 300 : Double.NaN);

    assertEquals(VisitChange.Reason.NO_COMMON_PLACE, refused(left, right));
  }

  private OptionalLong days(ScanIdentity from, ScanIdentity to) {
    return compared(visit(from, (x, y) -> 300), visit(to, (x, y) -> 300)).table().days();
  }

  private double own(ThicknessMap map, String sector) {
    SectorTable table = tabulator.tabulate(map, EtdrsGrids.ETDRS_1_3_6, 0.9);
    return assertInstanceOf(Measured.class, table.sector(sector).orElseThrow()).meanUm();
  }

  private VisitChange compare(VisitMap baseline, VisitMap followUp) {
    return new VisitComparer(tabulator).compare(baseline, followUp, EtdrsGrids.ETDRS_1_3_6, 0.9);
  }

  private VisitChange.Compared compared(VisitMap baseline, VisitMap followUp) {
    return assertInstanceOf(VisitChange.Compared.class, compare(baseline, followUp));
  }

  private VisitChange.Reason refused(VisitMap baseline, VisitMap followUp) {
    return assertInstanceOf(VisitChange.Refused.class, compare(baseline, followUp)).reason();
  }

  private static SectorChange.MeasuredChange measured(VisitChange.Compared compared, String name) {
    return assertInstanceOf(
        SectorChange.MeasuredChange.class, compared.table().sector(name).orElseThrow());
  }

  private static VisitMap visit(ScanIdentity identity, Surface surface) {
    return new VisitMap(Scans.map(LATTICE, Laterality.RIGHT, identity, surface), AXIAL);
  }

  private static AxialScale axial(Double index) {
    return new AxialScale(3.87, index == null ? OptionalDouble.empty() : OptionalDouble.of(index));
  }
}
