package org.isopach.report.picture;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.isopach.analysis.map.MapLattice;
import org.junit.jupiter.api.Test;

class ContourTracerTest {
  private static final MapLattice LATTICE = new MapLattice(81, 121, 0.05, -3.0, -2.0);

  @Test
  void aConeGivesOneClosedCircleOfTheRightRadius() {
    ValueField cone = field((x, y) -> 100 + 50 * Math.hypot(x, y));

    List<Contour> lines = ContourTracer.trace(cone, 160);

    assertEquals(1, lines.size());
    Contour circle = lines.get(0);
    assertTrue(circle.closed());
    for (int i = 0; i < circle.points(); i++) {
      assertEquals(1.2, Math.hypot(circle.xMm(i), circle.yMm(i)), 0.001);
    }
    assertEquals(2 * Math.PI * 1.2, circle.lengthMm(), 0.01);
  }

  @Test
  void aPlaneGivesOneStraightOpenLineAcross() {
    ValueField plane = field((x, y) -> 300 + 10 * x + 20 * y);

    List<Contour> lines = ContourTracer.trace(plane, 305);

    assertEquals(1, lines.size());
    Contour line = lines.get(0);
    assertFalse(line.closed());
    for (int i = 0; i < line.points(); i++) {
      assertEquals(5, 10 * line.xMm(i) + 20 * line.yMm(i), 1e-3);
    }
  }

  @Test
  void linesEndWhereValuesEnd() {
    ValueField half = field((x, y) -> x > 0.5 ? Double.NaN : 100 + 50 * Math.hypot(x, y));

    List<Contour> lines = ContourTracer.trace(half, 150);

    assertEquals(1, lines.size());
    assertFalse(lines.get(0).closed());
    for (int i = 0; i < lines.get(0).points(); i++) {
      assertTrue(lines.get(0).xMm(i) <= 0.5 + 1e-9);
    }
  }

  @Test
  void aSaddleGivesTwoLinesThatDoNotCross() {
    ValueField saddle = field((x, y) -> 300 + 20 * (x - 0.013) * (y - 0.007));

    assertEquals(2, ContourTracer.trace(saddle, 300.001).size());
  }

  @Test
  void aLevelNotReachedGivesNoLine() {
    assertTrue(ContourTracer.trace(field((x, y) -> 300), 301).isEmpty());
  }

  private static ValueField field(Surface surface) {
    return ValueField.of(
        LATTICE, (row, column) -> (float) surface.at(LATTICE.xMm(column), LATTICE.yMm(row)));
  }

  @FunctionalInterface
  private interface Surface {
    double at(double xMm, double yMm);
  }
}
