package org.isopach.analysis.asymmetry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.change.VisitMap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.analysis.scan.SourceDocument;
import org.junit.jupiter.api.Test;

class EyePairComparerTest {
  private static final MapLattice LATTICE = MapLattice.centred(3.1, 0.05);

  /** Thickness as a function of the place: mm towards the nose, mm up. */
  private interface Shape {
    double at(double nasal, double up);
  }

  @Test
  void mirrorImagesDoNotDifferAtAll() {
    Shape shape = (nasal, up) -> 300 + 10 * nasal - 4 * up + 3 * nasal * up;

    EyePairResult.Compared both = compared(shape, shape);

    for (int row = 0; row < LATTICE.rows(); row += 7) {
      for (int column = 0; column < LATTICE.columns(); column += 5) {
        assertEquals(0, both.map().micrometres(row, column));
      }
    }
    for (SectorAsymmetry sector : both.table().sectors()) {
      assertEquals(0, ((SectorAsymmetry.Given) sector).differenceUm(), sector.sector());
    }
  }

  /**
   * Means of a plane over sectors: 10 µm per mm × centroid 0.975343 or 2.100738 mm, by geometry.
   */
  @Test
  void aSlopeTowardsTheNoseOfTheRightEyeOnlyIsSeenWhereItIs() {
    EyePairResult.Compared both = compared((nasal, up) -> 300 + 10 * nasal, (nasal, up) -> 300.0);

    assertEquals(9.75343, difference(both, "inner-nasal"), 0.03);
    assertEquals(-9.75343, difference(both, "inner-temporal"), 0.03);
    assertEquals(21.00738, difference(both, "outer-nasal"), 0.03);
    assertEquals(0, difference(both, "outer-superior"), 0.03);
    int right = LATTICE.columns() - 1;
    assertTrue(both.map().micrometres(10, right) > 25, "the nose is to the right of a right eye");
  }

  @Test
  void aHoleInEitherEyeIsAHoleAndCountsForBoth() {
    EyePairResult.Compared both =
        compared((nasal, up) -> nasal > 1.6 ? Double.NaN : 300, (nasal, up) -> 290);

    assertInstanceOf(
        SectorAsymmetry.Missing.class, both.table().sector("outer-nasal").orElseThrow());
    assertEquals(10, difference(both, "outer-temporal"), 1e-4);
    assertInstanceOf(SectorAsymmetry.Missing.class, both.table().sector("total").orElseThrow());
    assertTrue(Float.isNaN(both.map().micrometres(60, LATTICE.columns() - 1)));
  }

  @Test
  void refusesWhatMustNotBeLaidOnOneAnother() {
    ThicknessMap right = map(Laterality.RIGHT, "P", Landmark.Source.FOVEAL_PIT, (n, u) -> 300);
    ThicknessMap left = map(Laterality.LEFT, "P", Landmark.Source.FOVEAL_PIT, (n, u) -> 300);

    assertRefused(right, right, 1.36, 1.36);
    assertRefused(left, right, 1.36, 1.36);
    assertRefused(right, left, 1.36, 1.38);
    assertRefused(
        right, map(Laterality.LEFT, "Q", Landmark.Source.FOVEAL_PIT, (n, u) -> 300), 1.36, 1.36);
    assertRefused(
        right, map(Laterality.LEFT, "P", Landmark.Source.SCAN_MIDDLE, (n, u) -> 300), 1.36, 1.36);
  }

  private static void assertRefused(ThicknessMap a, ThicknessMap b, double indexA, double indexB) {
    assertInstanceOf(EyePairResult.Refused.class, compare(a, b, indexA, indexB));
  }

  private static double difference(EyePairResult.Compared both, String sector) {
    return ((SectorAsymmetry.Given) both.table().sector(sector).orElseThrow()).differenceUm();
  }

  private static EyePairResult.Compared compared(Shape right, Shape left) {
    return (EyePairResult.Compared)
        compare(
            map(Laterality.RIGHT, "P", Landmark.Source.FOVEAL_PIT, right),
            map(Laterality.LEFT, "P", Landmark.Source.FOVEAL_PIT, left),
            1.36,
            1.36);
  }

  private static EyePairResult compare(
      ThicknessMap a, ThicknessMap b, double indexA, double indexB) {
    return new EyePairComparer(new SectorTabulator())
        .compare(
            new VisitMap(a, new AxialScale(3.87, OptionalDouble.of(indexA))),
            new VisitMap(b, new AxialScale(3.87, OptionalDouble.of(indexB))),
            EtdrsGrids.ETDRS_1_3_6,
            0.9);
  }

  private static ThicknessMap map(
      Laterality eye, String patient, Landmark.Source source, Shape shape) {
    float[] values = new float[LATTICE.cells()];
    for (int row = 0; row < LATTICE.rows(); row++) {
      for (int column = 0; column < LATTICE.columns(); column++) {
        values[row * LATTICE.columns() + column] =
            (float) shape.at(eye.nasalSign() * LATTICE.xMm(column), -LATTICE.yMm(row));
      }
    }
    return new ThicknessMap(
        Layer.ILM_BM,
        eye,
        LATTICE,
        new Landmark(new FundusPoint(0.1, -0.2), source),
        new ScanIdentity(patient, "1", "2", "3." + eye.code(), Optional.empty()),
        new SourceDocument("file", "00"),
        values);
  }
}
