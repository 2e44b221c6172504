package org.isopach.analysis.cross;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.junit.jupiter.api.Test;

/** A field of pixels that is moved takes every pixel along. */
class FieldPlaceTest {
  /** A quarter turn, then 1 mm and 2 mm on: (x, y) becomes (1 - y, 2 + x). */
  @Test
  void aTurnedAndShiftedFieldHasItsPixelsWhereTheTransformPutsThem() {
    FundusTransform turn = FundusTransform.ofMatrix(0, 1, new FundusPoint(1, 2));
    assertEquals(1 - 0.5, turn.apply(new FundusPoint(0.2, 0.5)).xMm(), 1e-12, "as described");
    FieldPlace field =
        new FieldPlace(
            new FundusPoint(-0.4, 0.7), new FundusPoint(0.05, 0.01), new FundusPoint(-0.01, 0.12));

    FieldPlace moved = field.moved(turn);

    for (int row = 0; row < 4; row++) {
      for (int column = 0; column < 5; column++) {
        FundusPoint before = at(field, row, column);
        FundusPoint after = at(moved, row, column);
        assertEquals(1 - before.yMm(), after.xMm(), 1e-12);
        assertEquals(2 + before.xMm(), after.yMm(), 1e-12);
      }
    }
  }

  private static FundusPoint at(FieldPlace field, int row, int column) {
    return new FundusPoint(
        field.first().xMm() + column * field.across().xMm() + row * field.down().xMm(),
        field.first().yMm() + column * field.across().yMm() + row * field.down().yMm());
  }
}
