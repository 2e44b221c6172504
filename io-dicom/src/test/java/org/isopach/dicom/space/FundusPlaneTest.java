package org.isopach.dicom.space;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Closed forms: rotations about the axes of the patient (DICOM PS3.3, C.7.6.2.1.1). */
class FundusPlaneTest {
  private static final FundusPlane PATIENT = FundusPlane.ofPatient();
  private static final FundusPoint ORIGIN = new FundusPoint(0, 0);

  /**
   * +Y points away from the examiner, and a right-handed turn about an axis that points away looks
   * clockwise.
   */
  @Test
  void aTurnAboutTheBackwardAxisIsClockwiseForTheExaminer() throws Exception {
    double c = Math.cos(0.2);
    double s = Math.sin(0.2);
    AffineMatrix aboutY = AffineMatrix.ofRows(c, 0, s, 0, 0, 1, 0, 0, -s, 0, c, 0);

    FundusTransform turn = FundusPlane.inPlane(aboutY, PATIENT, PATIENT);

    assertEquals(Math.toDegrees(0.2), turn.rotationDegrees(), 1e-12);
    assertEquals(1, turn.scale(), 1e-15);
  }

  @Test
  void leftOfThePatientIsRightAndHeadIsUp() throws Exception {
    AffineMatrix move = AffineMatrix.ofRows(1, 0, 0, 2, 0, 1, 0, 7, 0, 0, 1, 3);

    FundusTransform moved = FundusPlane.inPlane(move, PATIENT, PATIENT);

    assertEquals(new FundusPoint(2, -3), moved.translation(), "a shift in depth is left out");
  }

  /** The centre of the first pixel of each image is one place: half a pixel from each corner. */
  @Test
  void imagesCountFromTheCentreOfTheirFirstPixel() throws Exception {
    FundusPlane coarse = FundusPlane.ofImage(0.5, 0.25);
    FundusPlane fine = FundusPlane.ofImage(0.1, 0.05);

    FundusTransform same = FundusPlane.inPlane(AffineMatrix.IDENTITY, coarse, fine);

    FundusPoint centre = same.apply(new FundusPoint(0.125, 0.25));
    assertEquals(0.025, centre.xMm(), 1e-15);
    assertEquals(0.05, centre.yMm(), 1e-15);
    assertEquals(1, same.scale(), 1e-15);
  }

  @ParameterizedTest
  @CsvSource({"true, true", "true, false", "false, true", "false, false"})
  void comesBackFromSpace(boolean fromPatient, boolean toPatient) throws Exception {
    FundusPlane from = fromPatient ? PATIENT : FundusPlane.ofImage(0.012, 0.011);
    FundusPlane to = toPatient ? PATIENT : FundusPlane.ofImage(0.01, 0.02);
    FundusTransform made =
        FundusTransform.of(1.04, -9, new FundusPoint(4, 3), new FundusPoint(0.7, -0.4));

    AffineMatrix space = FundusPlane.inSpace(made, from, to);
    FundusTransform back = FundusPlane.inPlane(space, from, to);

    for (double x = 0; x <= 12; x += 12) {
      FundusPoint corner = new FundusPoint(x, 12);
      assertEquals(0, made.apply(corner).distanceMm(back.apply(corner)), 1e-13);
    }
    assertEquals(1.04 * 1.04, space.determinant(), 1e-14, "depth keeps its length");
    assertTrue(space.then(space.inverse()).near(AffineMatrix.IDENTITY, 1e-14));
  }

  @ParameterizedTest
  @CsvSource({
    "1, 0, 0, 0, 1, 0, 0, 0, -1, similarity",
    "1.003, 0, 0, 0, 1, 0, 0, 0, 1, similarity",
    "1, 0, 0.003, 0, 1, 0, 0, 0, 1, similarity",
    "1, -0.0012, 0, 0.0012, 1, 0, 0, 0, 1, leaves",
    "1, 0, 0, 0, 1, 0.0012, 0, -0.0012, 1, leaves",
    "2.1, 0, 0, 0, 1, 0, 0, 0, 2.1, scale",
    "0.4, 0, 0, 0, 1, 0, 0, 0, 0.4, scale",
  })
  void refusesWhatIsNoSimilarityOfTheFundus(
      double xx,
      double xy,
      double xz,
      double yx,
      double yy,
      double yz,
      double zx,
      double zy,
      double zz,
      String why) {
    AffineMatrix matrix = AffineMatrix.ofRows(xx, xy, xz, 0, yx, yy, yz, 0, zx, zy, zz, 0);

    NotInPlaneException refused =
        assertThrows(
            NotInPlaneException.class, () -> FundusPlane.inPlane(matrix, PATIENT, PATIENT));

    assertTrue(refused.getMessage().contains(why), refused.getMessage());
  }

  @Test
  void toleratesWhatRoundingLeaves() throws Exception {
    AffineMatrix matrix = AffineMatrix.ofRows(1.0009, 0, 0.0009, 0, 0, 1, 0.0009, 0, 0, 0, 1, 0);

    assertEquals(1, FundusPlane.inPlane(matrix, PATIENT, PATIENT).scale(), 6e-4);
  }

  @Test
  void chainsInTheOrderWritten() {
    AffineMatrix move = AffineMatrix.ofRows(1, 0, 0, 5, 0, 1, 0, 0, 0, 0, 1, 0);
    AffineMatrix twice = AffineMatrix.ofRows(2, 0, 0, 0, 0, 2, 0, 0, 0, 0, 2, 0);

    assertEquals(10, move.then(twice).at(0, 3));
    assertEquals(5, twice.then(move).at(0, 3));
    assertEquals(8, twice.determinant());
    assertThrows(IllegalArgumentException.class, () -> FundusTransform.of(0, 0, ORIGIN, ORIGIN));
    assertThrows(
        IllegalArgumentException.class,
        () -> AffineMatrix.ofRows(1, 0, 0, 0, 1, 0, 0, 0, 0, 0, 1, 0).inverse());
  }
}
