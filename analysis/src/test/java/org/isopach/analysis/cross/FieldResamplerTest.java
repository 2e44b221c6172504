package org.isopach.analysis.cross;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.MapLattice;
import org.junit.jupiter.api.Test;

class FieldResamplerTest {
  private static final MapLattice LATTICE = MapLattice.centred(1, 0.1);

  /** A plane, 200 um + 30 um per mm right + 7 um per mm down, on pixels placed in some way. */
  private static FieldValues plane(int rows, int columns, FieldPlace place) {
    float[] values = new float[rows * columns];
    for (int r = 0; r < rows; r++) {
      for (int c = 0; c < columns; c++) {
        double x = place.first().xMm() + c * place.across().xMm() + r * place.down().xMm();
        double y = place.first().yMm() + c * place.across().yMm() + r * place.down().yMm();
        values[r * columns + c] = (float) (200 + 30 * x + 7 * y);
      }
    }
    return new FieldValues(rows, columns, values);
  }

  private static void assertPlane(FieldPlace place, int rows, int columns) {
    float[] cells = FieldResampler.onto(LATTICE, plane(rows, columns, place), place);
    for (int r = 0; r < LATTICE.rows(); r++) {
      for (int c = 0; c < LATTICE.columns(); c++) {
        double expected = 200 + 30 * LATTICE.xMm(c) + 7 * LATTICE.yMm(r);
        assertEquals(expected, cells[r * LATTICE.columns() + c], 1e-3, r + ", " + c);
      }
    }
  }

  /** Linear interpolation gives a plane back, whatever the pixels. */
  @Test
  void aPlaneComesBackFromAnyPixels() {
    assertPlane(place(-1.5, -1.5, 0.07, 0, 0, 0.11), 40, 60);
    assertPlane(place(1.5, -1.5, -0.07, 0, 0, 0.11), 40, 60); // mirrored left and right
    assertPlane(place(-1.5, 1.5, 0.07, 0, 0, -0.11), 40, 60); // upside down
    assertPlane(place(-2.2, 0, 0.05, 0.05, 0.05, -0.05), 60, 60); // turned and mirrored
    assertPlane(place(0, -2.2, 0.05, 0.05, -0.05, 0.05), 60, 60); // turned by 45 degrees
  }

  private static FieldPlace place(
      double x, double y, double acrossX, double acrossY, double downX, double downY) {
    return new FieldPlace(
        new FundusPoint(x, y), new FundusPoint(acrossX, acrossY), new FundusPoint(downX, downY));
  }

  @Test
  void equalPixelsKeepTheirValuesAndHoles() {
    float[] values = new float[LATTICE.cells()];
    for (int i = 0; i < values.length; i++) {
      values[i] = i % 7 == 3 ? Float.NaN : 100 + i * 0.37f;
    }
    FieldPlace same = place(LATTICE.firstXMm() + 1e-9, LATTICE.firstYMm() - 1e-9, 0.1, 0, 0, 0.1);
    FieldValues field = new FieldValues(LATTICE.rows(), LATTICE.columns(), values);
    assertTrue(Arrays.equals(values, FieldResampler.onto(LATTICE, field, same)));
  }

  /** A map of 3 x 3 pixels of 0.2 mm reaches 0.3 mm; beside a hole nothing is mixed. */
  @Test
  void outsideAndBesideHolesThereIsNothing() {
    float[] values = {1, 2, 3, 4, Float.NaN, 6, 7, 8, 9};
    FieldPlace place = place(-0.2, -0.2, 0.2, 0, 0, 0.2);
    float[] cells = FieldResampler.onto(LATTICE, new FieldValues(3, 3, values), place);
    assertEquals(1, at(cells, -0.2, -0.2));
    assertEquals(1.5, at(cells, -0.1, -0.2), 1e-6);
    assertTrue(Double.isNaN(at(cells, -0.4, -0.2)));
    assertTrue(Double.isNaN(at(cells, 0, 0)));
    assertTrue(Double.isNaN(at(cells, 0.1, 0.1)));
    FieldPlace left = place(-0.22, -0.2, 0.2, 0, 0, 0.2);
    cells = FieldResampler.onto(LATTICE, new FieldValues(3, 3, values), left);
    assertEquals(1, at(cells, -0.3, -0.2)); // in the outer half of a pixel its own value
  }

  private static double at(float[] cells, double x, double y) {
    int row = (int) Math.round((y - LATTICE.firstYMm()) / LATTICE.stepMm());
    int column = (int) Math.round((x - LATTICE.firstXMm()) / LATTICE.stepMm());
    return cells[row * LATTICE.columns() + column];
  }

  @Test
  void infinitiesAndPixelsWithoutAreaAreRefused() {
    assertTrue(Float.isNaN(new FieldValues(1, 1, new float[] {Float.NEGATIVE_INFINITY}).at(0, 0)));
    assertThrows(IllegalArgumentException.class, () -> new FieldValues(2, 2, new float[3]));
    assertThrows(IllegalArgumentException.class, () -> place(0, 0, 0.1, 0.1, 0.2, 0.2));
    assertThrows(IllegalArgumentException.class, () -> place(Double.NaN, 0, 0.1, 0, 0, 0.1));
  }
}
