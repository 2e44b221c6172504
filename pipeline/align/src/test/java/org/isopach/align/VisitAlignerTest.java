package org.isopach.align;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.Landmark;
import org.junit.jupiter.api.Test;

class VisitAlignerTest {
  private static final FundusFrame ONE =
      new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.101");
  private static final FundusFrame OTHER =
      new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.102");
  private static final Landmark EARLY_PIT = landmark(4.1, 4.0, Landmark.Source.FOVEAL_PIT);
  private static final Landmark LATE_PIT = landmark(4.4, 3.7, Landmark.Source.FOVEAL_PIT);
  private static final Landmark EARLY_MIDDLE = landmark(4.5, 4.5, Landmark.Source.SCAN_MIDDLE);
  private static final Landmark LATE_MIDDLE = landmark(4.6, 4.2, Landmark.Source.SCAN_MIDDLE);

  @Test
  void centresEachVisitOnItsOwnPitWhateverTheFrames() {
    VisitAlignment.Aligned sameFrame = aligned(EARLY_PIT, ONE, LATE_PIT, ONE);
    VisitAlignment.Aligned otherFrame = aligned(EARLY_PIT, ONE, LATE_PIT, OTHER);

    assertEquals(EARLY_PIT, sameFrame.baseline());
    assertEquals(LATE_PIT, sameFrame.followUp());
    assertEquals(VisitAlignment.Method.FOVEAL_PIT, sameFrame.method());
    assertEquals(sameFrame.method(), otherFrame.method());
    assertEquals(path(ONE).point(0, 0), sameFrame.followUpPath().point(0, 0));
  }

  @Test
  void carriesTheOnePitOverInASharedFrame() {
    VisitAlignment.Aligned late = aligned(EARLY_MIDDLE, ONE, LATE_PIT, ONE);
    VisitAlignment.Aligned early = aligned(EARLY_PIT, ONE, LATE_MIDDLE, ONE);

    assertEquals(LATE_PIT, late.baseline());
    assertEquals(LATE_PIT, late.followUp());
    assertEquals(EARLY_PIT, early.baseline());
    assertEquals(EARLY_PIT, early.followUp());
    assertEquals("shared-frame", early.method().code());
  }

  @Test
  void keepsTheBaselinesCentreWhenNeitherHasAPit() {
    VisitAlignment.Aligned aligned = aligned(EARLY_MIDDLE, ONE, LATE_MIDDLE, ONE);

    assertEquals(EARLY_MIDDLE, aligned.baseline());
    assertEquals(EARLY_MIDDLE, aligned.followUp());
  }

  @Test
  void refusesCentresThatAreNoCommonPlace() {
    VisitAlignment refused = align(EARLY_PIT, ONE, LATE_MIDDLE, OTHER);

    String detail = assertInstanceOf(VisitAlignment.NotAligned.class, refused).detail();
    assertTrue(detail.contains("foveal-pit and scan-middle"), detail);
  }

  @Test
  void takesFramesWithoutUidForDifferent() {
    FundusFrame nameless = new FundusFrame(FundusFrame.Kind.PATIENT, "");

    VisitAlignment refused = align(EARLY_MIDDLE, nameless, LATE_MIDDLE, nameless);

    assertInstanceOf(VisitAlignment.NotAligned.class, refused);
  }

  @Test
  void takesFramesOfDifferentKindsForDifferent() {
    FundusFrame patient = new FundusFrame(FundusFrame.Kind.PATIENT, ONE.uid());

    VisitAlignment refused = align(EARLY_MIDDLE, ONE, LATE_MIDDLE, patient);

    assertInstanceOf(VisitAlignment.NotAligned.class, refused);
  }

  @Test
  void movesTheFollowUpByAStatedRegistration() {
    FundusTransform stated =
        FundusTransform.of(1.02, 3, new FundusPoint(4, 4), new FundusPoint(0.5, -0.2));

    VisitAlignment.Aligned aligned =
        assertInstanceOf(
            VisitAlignment.Aligned.class,
            VisitAligner.align(place(EARLY_PIT, ONE), place(LATE_PIT, OTHER), Optional.of(stated)));

    assertEquals(VisitAlignment.Method.STATED, aligned.method());
    assertEquals(EARLY_PIT, aligned.followUp());
    assertEquals(ONE, aligned.followUpPath().frame());
    FundusPoint expected = stated.apply(path(OTHER).point(1, 2));
    assertEquals(expected, aligned.followUpPath().point(1, 2));
  }

  private static VisitAlignment.Aligned aligned(
      Landmark a, FundusFrame frameA, Landmark b, FundusFrame frameB) {
    return assertInstanceOf(VisitAlignment.Aligned.class, align(a, frameA, b, frameB));
  }

  private static VisitAlignment align(
      Landmark a, FundusFrame frameA, Landmark b, FundusFrame frameB) {
    return VisitAligner.align(place(a, frameA), place(b, frameB), Optional.empty());
  }

  private static ScanPlace place(Landmark landmark, FundusFrame frame) {
    return new ScanPlace(landmark, path(frame), Optional.empty());
  }

  private static ScanPath path(FundusFrame frame) {
    return ScanPath.ofLines(
        List.of(new FundusPoint(1, 1), new FundusPoint(1, 7)),
        List.of(new FundusPoint(7, 1), new FundusPoint(7, 7)),
        4,
        frame);
  }

  private static Landmark landmark(double x, double y, Landmark.Source source) {
    return new Landmark(new FundusPoint(x, y), source);
  }
}
