package org.isopach.analysis.scan;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.junit.jupiter.api.Test;

class StatedRegistrationsTest {
  private static final FundusFrame A = image("2.25.1");
  private static final FundusFrame B = image("2.25.2");
  private static final FundusFrame C = image("2.25.3");
  private static final FundusFrame D = image("2.25.4");
  private static final FundusPoint POINT = new FundusPoint(3, 5);

  @Test
  void readsAStatementBothWays() {
    StatedRegistrations stated = StatedRegistrations.of(List.of(move(A, B, 1, 2)));

    assertEquals(new FundusPoint(4, 7), stated.between(A, B).orElseThrow().apply(POINT));
    assertEquals(new FundusPoint(2, 3), stated.between(B, A).orElseThrow().apply(POINT));
    assertEquals(Optional.empty(), stated.between(A, C));
  }

  @Test
  void joinsTwoThatShareAFrameWhateverTheirDirection() {
    StatedRegistration ab = move(A, B, 1, 2);
    StatedRegistration bc = move(B, C, 10, 20);
    FundusPoint expected = new FundusPoint(14, 27);
    for (StatedRegistration first : List.of(ab, ab.inverse())) {
      for (StatedRegistration second : List.of(bc, bc.inverse())) {
        StatedRegistrations stated = StatedRegistrations.of(List.of(second, first));

        assertEquals(expected, stated.between(A, C).orElseThrow().apply(POINT));
      }
    }
  }

  @Test
  void doesNotJoinThree() {
    StatedRegistrations stated =
        StatedRegistrations.of(List.of(move(A, B, 1, 0), move(B, C, 1, 0), move(C, D, 1, 0)));

    assertEquals(Optional.empty(), stated.between(A, D));
    assertFalse(stated.contradict(A, D));
  }

  @Test
  void takesADirectStatementBeforeAChain() {
    StatedRegistrations stated =
        StatedRegistrations.of(List.of(move(A, B, 1, 0), move(B, C, 1, 0), move(A, C, 2.5, 0)));

    assertEquals(new FundusPoint(5.5, 5), stated.between(A, C).orElseThrow().apply(POINT));
  }

  @Test
  void givesNothingWhenStatementsDisagree() {
    StatedRegistrations near =
        StatedRegistrations.of(List.of(move(A, B, 1, 0), move(B, A, -1.009, 0)));
    StatedRegistrations far =
        StatedRegistrations.of(List.of(move(A, B, 1, 0), move(B, A, -1.011, 0)));

    assertEquals(new FundusPoint(4, 5), near.between(A, B).orElseThrow().apply(POINT));
    assertFalse(near.contradict(A, B));
    assertEquals(Optional.empty(), far.between(A, B));
    assertTrue(far.contradict(A, B));
  }

  @Test
  void seesATurnThatMovesTheEdgeOfTheFieldOnly() {
    FundusPoint origin = new FundusPoint(0, 0);
    StatedRegistration turned =
        new StatedRegistration(A, B, FundusTransform.of(1, 0.05, origin, origin), document());

    assertTrue(
        StatedRegistrations.of(List.of(move(A, B, 0, 0), turned)).contradict(A, B),
        "0.05 degrees are 15 um at 17 mm");
  }

  @Test
  void knowsAFrameFromItself() {
    FundusFrame nameless = new FundusFrame(FundusFrame.Kind.PATIENT, "");

    assertEquals(Optional.of(FundusTransform.IDENTITY), StatedRegistrations.NONE.between(A, A));
    assertEquals(Optional.empty(), StatedRegistrations.NONE.between(nameless, nameless));
    assertThrows(IllegalArgumentException.class, () -> move(A, A, 1, 0));
  }

  private static StatedRegistration move(FundusFrame from, FundusFrame to, double x, double y) {
    return new StatedRegistration(
        from, to, FundusTransform.translation(new FundusPoint(x, y)), document());
  }

  private static SourceDocument document() {
    return new SourceDocument("registration.dcm", "00");
  }

  private static FundusFrame image(String uid) {
    return new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, uid);
  }
}
