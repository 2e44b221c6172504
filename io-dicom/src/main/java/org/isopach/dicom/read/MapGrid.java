package org.isopach.dicom.read;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * The pixels of a thickness map and the lattice of square cells made of them.
 *
 * <p>Square pixels are taken as they are. Others are put on squares of the smaller side, each
 * square taking the value of the pixel its centre lies in: no value is mixed from others.
 *
 * @param rows pixels down
 * @param columns pixels across
 * @param rowMm mm from row to row
 * @param columnMm mm from column to column
 */
record MapGrid(int rows, int columns, double rowMm, double columnMm) {
  private static final double SQUARE = 1e-6;
  private static final String FOVEA = "67046006";

  /**
   * Reads Pixel Spacing (0028,0030).
   *
   * @throws ObjectDefect MALFORMED_ATTRIBUTE when it is no pair of numbers, NO_PLACEMENT when it is
   *     missing, empty or not positive
   */
  static MapGrid of(Dataset object, int rows, int columns) throws ObjectDefect {
    NumberField field = NumberField.of(object, Tags.PIXEL_SPACING);
    List<Double> pair = field.values();
    String words = "Pixel Spacing (0028,0030) is " + field.words();
    if (field instanceof NumberField.Malformed || pair.size() == 1 || pair.size() > 2) {
      throw new ObjectDefect(FindingKind.MALFORMED_ATTRIBUTE, words);
    }
    if (pair.isEmpty() || pair.stream().anyMatch(v -> !(v > 0 && v < 1e3))) {
      throw new ObjectDefect(FindingKind.NO_PLACEMENT, words);
    }
    return new MapGrid(rows, columns, pair.get(0), pair.get(1));
  }

  /** Returns the lattice, its origin at the object's fovea or the middle. */
  MapLattice lattice(Dataset object) {
    FundusPoint origin = fovea(object).orElse(middle());
    double step = stepMm();
    return new MapLattice(
        squareRows(), squareColumns(), step, step / 2 - origin.xMm(), step / 2 - origin.yMm());
  }

  /**
   * Returns the point at the lattice's origin: on the fundus image when the map is registered to
   * one whose scale is known, else from the outer corner of the map's first pixel.
   */
  Landmark centre(Dataset object, Map<String, Localizer> localizers, Remarks remarks) {
    Optional<FundusPoint> fovea = fovea(object);
    if (fovea.isEmpty()) {
      remarks.add(FindingKind.FOVEA_NOT_FOUND, "the map does not state where the fovea is");
    }
    FundusPoint inMap = fovea.orElse(middle());
    return new Landmark(
        onFundus(object, localizers, inMap).orElse(inMap),
        fovea.isPresent() ? Landmark.Source.STATED : Landmark.Source.SCAN_MIDDLE);
  }

  /** Returns the values of square cells. */
  float[] toSquares(float[] values) {
    if (squareRows() == rows && squareColumns() == columns) {
      return values;
    }
    float[] squares = new float[squareRows() * squareColumns()];
    for (int r = 0; r < squareRows(); r++) {
      int row = Math.min(rows - 1, (int) ((r + 0.5) * stepMm() / rowMm));
      for (int c = 0; c < squareColumns(); c++) {
        int column = Math.min(columns - 1, (int) ((c + 0.5) * stepMm() / columnMm));
        squares[r * squareColumns() + c] = values[row * columns + column];
      }
    }
    return squares;
  }

  private double stepMm() {
    return Math.min(rowMm, columnMm);
  }

  private int squareRows() {
    return squares(rows, rowMm);
  }

  private int squareColumns() {
    return squares(columns, columnMm);
  }

  private int squares(int pixels, double mm) {
    double ratio = mm / stepMm();
    return ratio < 1 + SQUARE ? pixels : (int) Math.max(1, Math.rint(pixels * ratio));
  }

  private FundusPoint middle() {
    return new FundusPoint(columns * columnMm / 2, rows * rowMm / 2);
  }

  /** Returns the fovea in mm from the outer corner of the first pixel; row first in the object. */
  Optional<FundusPoint> fovea(Dataset object) {
    boolean named =
        object.items(Tags.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE).stream()
            .anyMatch(item -> item.text(Tags.CODE_VALUE).orElse("").equals(FOVEA));
    List<Double> point = NumberField.of(object, Tags.ANATOMIC_STRUCTURE_REFERENCE_POINT).values();
    if (!named || point.size() != 2 || !point.stream().allMatch(v -> Math.abs(v) < 1e6)) {
      return Optional.empty();
    }
    return Optional.of(new FundusPoint(point.get(1) * columnMm, point.get(0) * rowMm));
  }

  private Optional<FundusPoint> onFundus(
      Dataset object, Map<String, Localizer> localizers, FundusPoint inMap) {
    List<Dataset> items = object.items(Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE);
    Optional<Localizer> image =
        object.items(Tags.REFERENCED_INSTANCE_SEQUENCE).stream()
            .flatMap(item -> item.text(Tags.REFERENCED_SOP_INSTANCE_UID).stream())
            .filter(localizers::containsKey)
            .findFirst()
            .map(localizers::get)
            .filter(Localizer::hasScale);
    if (items.isEmpty() || image.isEmpty()) {
      return Optional.empty();
    }
    List<Double> first = corner(items.get(0), Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER);
    List<Double> last = corner(items.get(0), Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER);
    if (first.size() != 2 || last.size() != 2) {
      return Optional.empty();
    }
    double down = inMap.yMm() / (rows * rowMm);
    double across = inMap.xMm() / (columns * columnMm);
    double row = first.get(0) + down * (last.get(0) - first.get(0));
    double column = first.get(1) + across * (last.get(1) - first.get(1));
    return Optional.of(
        new FundusPoint(
            column * image.get().columnMm().getAsDouble(),
            row * image.get().rowMm().getAsDouble()));
  }

  static List<Double> corner(Dataset item, int tag) {
    List<Double> values = NumberField.of(item, tag).values();
    return values.stream().allMatch(v -> Math.abs(v) < 1e9) ? values : List.of();
  }
}
