package org.isopach.analysis.layer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import org.junit.jupiter.api.Test;

/** What a surface says about points without depth. */
class BoundarySurfaceTest {
  private static final float NAN = Float.NaN;

  @Test
  void keepsTheReasonForEveryMissingDepth() {
    byte[] marks = new byte[Absence.values().length];
    float[] depths = new float[marks.length];
    for (Absence absence : Absence.values()) {
      marks[absence.mark()] = absence.mark();
      depths[absence.mark()] = absence == Absence.NONE ? 7 : NAN;
    }
    BoundarySurface surface =
        new BoundarySurface(1, marks.length, depths, new float[marks.length], marks);
    for (Absence absence : Absence.values()) {
      assertEquals(absence, surface.absence(0, absence.mark()));
    }
  }

  @Test
  void aReasonAndADepthExcludeEachOther() {
    float[] depths = {3, NAN, NAN};
    byte[] marks = {Absence.DISC.mark(), Absence.NONE.mark(), Absence.LAYER_LOST.mark()};
    BoundarySurface surface = new BoundarySurface(1, 3, depths, new float[3], marks);
    assertEquals(Absence.NONE, surface.absence(0, 0));
    assertEquals(Absence.UNSTATED, surface.absence(0, 1));
    assertEquals(Absence.LAYER_LOST, surface.absence(0, 2));
    assertEquals(Absence.DISC.mark(), marks[0], "the caller's array stays as it is");
  }

  @Test
  void withoutReasonsMissingDepthsAreUnstated() {
    BoundarySurface surface = new BoundarySurface(2, 1, new float[] {NAN, 1}, new float[] {1, 1});
    assertEquals(Absence.UNSTATED, surface.absence(0, 0));
    assertEquals(0, surface.confidence(0, 0));
    assertEquals(Absence.NONE, surface.absence(1, 0));
  }

  @Test
  void refusesMarksThatStandForNothing() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new BoundarySurface(1, 1, new float[] {NAN}, new float[1], new byte[] {9}));
    assertThrows(
        IllegalArgumentException.class,
        () -> new BoundarySurface(1, 1, new float[] {NAN}, new float[1], new byte[2]));
  }
}
