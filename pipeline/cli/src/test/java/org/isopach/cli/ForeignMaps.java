package org.isopach.cli;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.List;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.ObjectDefect;

/** Maps of an invented other system: on other pixels, mirrored, without definition or size. */
final class ForeignMaps {
  private static final Code TO_RPE = new Code("111928", "DCM", "Total retinal thickness");

  private final Path objects;

  ForeignMaps(Path objects) {
    this.objects = objects;
  }

  /** Writes parametric maps made of one of ours. */
  void fields(Path field) throws IOException, ObjectDefect {
    ForeignObject.of(field, "2.25.1010")
        .with(b -> b.numbers(Tags.ROWS, Vr.US, 161).numbers(Tags.COLUMNS, Vr.US, 321))
        .inEvery(Tags.PIXEL_MEASURES_SEQUENCE, item -> spacing(item, "0.05", "0.025"))
        .inEvery(Tags.PLANE_POSITION_SEQUENCE, ForeignMaps::fromTheRight)
        .inEvery(
            Tags.PLANE_ORIENTATION_SEQUENCE,
            item ->
                item.toBuilder()
                    .text(Tags.IMAGE_ORIENTATION_PATIENT, Vr.DS, "-1", "0", "0", "0", "0", "-1")
                    .build())
        .inEvery(
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE, item -> mapping(item, "mm", 0.001, -1e6, 1e6))
        .pixels(b -> slope(161, 321, 0.05, -0.025, true))
        .write(name("mirrored-field"));
    ForeignObject.of(field, "2.25.1011")
        .inEvery(
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
            item -> item.toBuilder().remove(Tags.QUANTITY_DEFINITION_SEQUENCE).build())
        .write(name("field-of-something"));
    ForeignObject.of(field, "2.25.1014")
        .inEvery(Tags.PIXEL_MEASURES_SEQUENCE, item -> spacing(item, "1e-9", "1e-9"))
        .write(name("field-of-no-size"));
  }

  /** Writes a thickness map made of one of ours. */
  void map(Path map) throws IOException, ObjectDefect {
    ForeignObject thickness = ForeignObject.of(map, "2.25.1012");
    thickness
        .with(
            b ->
                b.numbers(Tags.ROWS, Vr.US, 161)
                    .numbers(Tags.COLUMNS, Vr.US, 101)
                    .text(Tags.PIXEL_SPACING, Vr.DS, "0.05", "0.08"))
        .with(b -> register(b, thickness.first(Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE)))
        .with(
            b ->
                b.items(
                    Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
                    integerMapping(thickness.first(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE))))
        .pixels(b -> slope(161, 101, 0.05, -0.08, false))
        .write(name("mirrored-map"));
  }

  private Path name(String name) {
    return objects.resolve(name);
  }

  private static Dataset spacing(Dataset item, String row, String column) {
    return item.toBuilder().text(Tags.PIXEL_SPACING, Vr.DS, row, column).build();
  }

  /** From the first cell of our lattice, 3 mm left of the centre, to one 4 mm right and 4 up. */
  private static Dataset fromTheRight(Dataset item) {
    List<String> old = item.texts(Tags.IMAGE_POSITION_PATIENT);
    return item.toBuilder()
        .text(
            Tags.IMAGE_POSITION_PATIENT,
            Vr.DS,
            decimal(Double.parseDouble(old.get(0)) + 7),
            "0",
            decimal(Double.parseDouble(old.get(2)) + 1))
        .build();
  }

  private static String decimal(double value) {
    String text = Double.toString(value);
    return text.substring(0, Math.min(16, text.length()));
  }

  private static Dataset mapping(Dataset item, String unit, double slope, double from, double to) {
    return item.toBuilder()
        .items(
            Tags.QUANTITY_DEFINITION_SEQUENCE,
            Dataset.builder().items(Tags.CONCEPT_CODE_SEQUENCE, TO_RPE.toItem()).build())
        .items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, new Code(unit, "UCUM", unit).toItem())
        .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, slope)
        .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, 0)
        .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.FD, from)
        .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.FD, to)
        .build();
  }

  private static Dataset integerMapping(Dataset item) {
    return item.toBuilder()
        .numbers(Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.US, 1)
        .numbers(Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.US, 65535)
        .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, 0.01)
        .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, 0)
        .build();
  }

  /** Our map reaches 3.01 mm to every side; this one 4.025 mm up and down, 4.04 mm across. */
  private static void register(Dataset.Builder object, Dataset old) {
    double[] first = corner(old, Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER);
    double[] last = corner(old, Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER);
    double down = (last[0] - first[0]) / 2 / 3.01 * 4.025;
    double across = (last[1] - first[1]) / 2 / 3.01 * 4.04;
    double row = (first[0] + last[0]) / 2;
    double column = (first[1] + last[1]) / 2;
    object.items(
        Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE,
        old.toBuilder()
            .numbers(
                Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER,
                Vr.FL,
                (float) (row - down),
                (float) (column + across))
            .numbers(
                Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER,
                Vr.FL,
                (float) (row + down),
                (float) (column - across))
            .build());
  }

  private static double[] corner(Dataset item, int tag) {
    return ((Element.Numbers) item.element(tag).orElseThrow())
        .values().stream().mapToDouble(Double::doubleValue).toArray();
  }

  /** 300 um at the middle, 10 um more for each mm to the right, 20 um less for each mm down. */
  private static byte[] slope(int rows, int columns, double downMm, double acrossMm, boolean real) {
    ByteBuffer buffer =
        ByteBuffer.allocate(rows * columns * (real ? Float.BYTES : Short.BYTES))
            .order(ByteOrder.LITTLE_ENDIAN);
    for (int row = 0; row < rows; row++) {
      for (int column = 0; column < columns; column++) {
        double x = (column - (columns - 1) / 2.0) * acrossMm;
        double y = (row - (rows - 1) / 2.0) * downMm;
        double um = 300 + 10 * x - 20 * y;
        if (real) {
          buffer.putFloat((float) um);
        } else {
          buffer.putShort((short) Math.round(um * 100));
        }
      }
    }
    return buffer.array();
  }
}
