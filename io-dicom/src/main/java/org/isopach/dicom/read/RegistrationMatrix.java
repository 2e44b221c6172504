package org.isopach.dicom.read;

import java.util.List;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.space.AffineMatrix;
import org.isopach.dicom.space.FundusPlane;

/**
 * The matrix of one item of a Registration Sequence (DICOM PS3.3, C.20.2): takes points of what the
 * item registers to the registered system, mm, columns, the first matrix of several first (that
 * order from memory).
 */
final class RegistrationMatrix {
  private static final int MOST_MATRICES = 16;
  private static final double LARGEST = 1e9;
  private static final double LAST_ROW = 1e-9;
  private static final double FLAT = 1e-6;

  private RegistrationMatrix() {}

  /**
   * Reads an item.
   *
   * @throws Unusable when there is no matrix, or one is not what it says it is
   */
  static AffineMatrix of(Dataset item) throws Unusable {
    List<Dataset> registrations = item.items(Tags.MATRIX_REGISTRATION_SEQUENCE);
    if (registrations.size() != 1) {
      throw new Unusable(
          "Matrix Registration Sequence (0070,0309) has " + registrations.size() + " items, not 1");
    }
    List<Dataset> matrices = registrations.get(0).items(Tags.MATRIX_SEQUENCE);
    if (matrices.isEmpty() || matrices.size() > MOST_MATRICES) {
      throw new Unusable("Matrix Sequence (0070,030A) has " + matrices.size() + " items");
    }
    AffineMatrix all = AffineMatrix.IDENTITY;
    for (Dataset matrix : matrices) {
      all = all.then(one(matrix));
    }
    return all;
  }

  private static AffineMatrix one(Dataset item) throws Unusable {
    NumberField field = NumberField.of(item, Tags.FRAME_OF_REFERENCE_TRANSFORMATION_MATRIX);
    List<Double> v = field.values();
    String name = "Frame of Reference Transformation Matrix (3006,00C6)";
    if (v.size() != 16) {
      throw new Unusable(
          name + (v.isEmpty() ? " is " + field.words() : " has " + v.size() + " numbers, not 16"));
    }
    if (!v.stream().allMatch(number -> Math.abs(number) < LARGEST)) {
      throw new Unusable(name + " has a number that is not finite or too large: " + v);
    }
    boolean affine =
        Math.abs(v.get(12)) <= LAST_ROW
            && Math.abs(v.get(13)) <= LAST_ROW
            && Math.abs(v.get(14)) <= LAST_ROW
            && Math.abs(v.get(15) - 1) <= LAST_ROW;
    if (!affine) {
      throw new Unusable(name + " does not end with 0, 0, 0, 1: " + v.subList(12, 16));
    }
    AffineMatrix matrix =
        AffineMatrix.ofRows(v.subList(0, 12).stream().mapToDouble(Double::doubleValue).toArray());
    requireType(matrix, item.text(Tags.FRAME_OF_REFERENCE_TRANSFORMATION_MATRIX_TYPE).orElse(""));
    return matrix;
  }

  /** RIGID keeps lengths and angles, RIGID_SCALE angles between the axes; neither mirrors. */
  private static void requireType(AffineMatrix matrix, String type) throws Unusable {
    double determinant = matrix.determinant();
    if (!(Math.abs(determinant) > FLAT)) {
      throw new Unusable("the matrix flattens space");
    }
    boolean holds =
        switch (type) {
          case "RIGID" -> determinant > 0 && square(matrix) && lengthsKept(matrix);
          case "RIGID_SCALE" -> determinant > 0 && square(matrix);
          case "AFFINE" -> true;
          default ->
              throw new Unusable(
                  "the matrix's type (0070,030C) is \"" + type + "\", which is none of the three");
        };
    if (!holds) {
      throw new Unusable("the matrix says it is " + type + " and is not: " + matrix);
    }
  }

  private static boolean lengthsKept(AffineMatrix matrix) {
    for (int axis = 0; axis < 3; axis++) {
      if (Math.abs(matrix.stretch(axis) - 1) > FundusPlane.TOLERANCE) {
        return false;
      }
    }
    return true;
  }

  private static boolean square(AffineMatrix matrix) {
    for (int axis = 0; axis < 3; axis++) {
      int next = (axis + 1) % 3;
      double cosine = matrix.dot(axis, next) / (matrix.stretch(axis) * matrix.stretch(next));
      if (Math.abs(cosine) > FundusPlane.TOLERANCE) {
        return false;
      }
    }
    return true;
  }
}
