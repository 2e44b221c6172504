package org.isopach.dicom.space;

import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;

/**
 * How the plane of the fundus lies in the space that an object counts in.
 *
 * <p>In the plane's own coordinates x is to the right and y down on the fundus, z into the depth of
 * the eye, all in mm; {@link #toSpace()} takes them to the object's.
 *
 * <ul>
 *   <li>Patient-relative: X = x, Y = z, Z = -y (DICOM PS3.3, C.7.6.2.1.1: X to the patient's left,
 *       which is the examiner's right; Y backwards; Z to the head).
 *   <li>Image-relative: mm along row and column by Pixel Spacing from the <b>centre</b> of the
 *       first pixel (DICOM PS3.3, C.20.2; from memory), z = 0 in the picture; ours begin at that
 *       pixel's outer corner, half a pixel before.
 * </ul>
 */
public final class FundusPlane {
  /** Largest part by which lengths may differ from those of a similarity; ours: 1 um per mm. */
  public static final double TOLERANCE = 1e-3;

  /** Least scale between two coordinate systems of one eye that is believed; ours. */
  public static final double LEAST_SCALE = 0.5;

  /** Greatest scale that is believed; ours. */
  public static final double GREATEST_SCALE = 2;

  private static final int DEPTH = 2;

  private final AffineMatrix toSpace;

  private FundusPlane(AffineMatrix toSpace) {
    this.toSpace = toSpace;
  }

  /** Returns the plane in the patient-relative system. */
  public static FundusPlane ofPatient() {
    return new FundusPlane(AffineMatrix.ofRows(1, 0, 0, 0, 0, 0, 1, 0, 0, -1, 0, 0));
  }

  /** Returns the plane of a fundus image with some mm between rows and between columns. */
  public static FundusPlane ofImage(double rowMm, double columnMm) {
    return new FundusPlane(
        AffineMatrix.ofRows(1, 0, 0, -columnMm / 2, 0, 1, 0, -rowMm / 2, 0, 0, 1, 0));
  }

  /** Returns what takes the plane's coordinates to the object's. */
  public AffineMatrix toSpace() {
    return toSpace;
  }

  /** Returns the map between two objects' spaces that does this in the plane; depth is kept. */
  public static AffineMatrix inSpace(FundusTransform transform, FundusPlane from, FundusPlane to) {
    double a = transform.a();
    double b = transform.b();
    AffineMatrix inPlane =
        AffineMatrix.ofRows(
            a,
            -b,
            0,
            transform.translation().xMm(),
            b,
            a,
            0,
            transform.translation().yMm(),
            0,
            0,
            1,
            0);
    return from.toSpace.inverse().then(inPlane).then(to.toSpace);
  }

  /**
   * Returns what a map between two objects' spaces does in the plane. A shift along depth does not
   * move points of the plane and is left out.
   *
   * @throws NotInPlaneException when it is no similarity of the plane within {@link #TOLERANCE};
   *     says why
   */
  public static FundusTransform inPlane(AffineMatrix space, FundusPlane from, FundusPlane to)
      throws NotInPlaneException {
    AffineMatrix m = from.toSpace.then(space).then(to.toSpace.inverse());
    double a = (m.at(0, 0) + m.at(1, 1)) / 2;
    double b = (m.at(1, 0) - m.at(0, 1)) / 2;
    double scale = Math.hypot(a, b);
    // For any point p, the matrix and its nearest similarity differ by exactly this times |p|.
    double rest = Math.hypot((m.at(0, 0) - m.at(1, 1)) / 2, (m.at(0, 1) + m.at(1, 0)) / 2);
    double tilt =
        Math.max(
            Math.hypot(m.at(0, DEPTH), m.at(1, DEPTH)), Math.hypot(m.at(DEPTH, 0), m.at(DEPTH, 1)));
    if (!(tilt <= TOLERANCE)) {
      throw new NotInPlaneException("it leaves the plane of the fundus by " + tilt + " mm per mm");
    }
    if (!(rest <= TOLERANCE * scale)) {
      throw new NotInPlaneException(
          "it is no similarity of the fundus: lengths differ by "
              + rest
              + " mm per mm with direction, or it is a mirror image");
    }
    if (!(scale >= LEAST_SCALE && scale <= GREATEST_SCALE)) {
      throw new NotInPlaneException("its scale is not believed: " + scale);
    }
    return FundusTransform.ofMatrix(a, b, new FundusPoint(m.at(0, 3), m.at(1, 3)));
  }
}
