package org.isopach.cli;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.ObjectDefect;

/** Objects of an invented other system about one scan, sound and unsound ones. */
final class ForeignFolder {
  /** Height of a pixel of the scan in um. */
  static final double PIXEL_UM = 3.87;

  private static final Code FLUID = new Code("F-001", "99GANNET", "Wet place");
  private static final Code OTHER_FLUID = new Code("F-002", "99GANNET", "Another wet place");

  private final Path elsewhere;
  private final Path objects;

  /**
   * @param elsewhere where our own objects are, which the others are made of
   * @param objects where the others go
   */
  ForeignFolder(Path elsewhere, Path objects) {
    this.elsewhere = elsewhere;
    this.objects = objects;
  }

  /** Writes all objects, about one scan but for one of the left eye's. */
  void write(String scan, String leftScan) throws IOException, ObjectDefect {
    Path report = elsewhere.resolve(scan + "_grid-report.dcm");
    Files.copy(report, objects.resolve("ours"));
    reports(report);
    heights(elsewhere.resolve(scan + "_height-maps.dcm"));
    brokenHeights(elsewhere.resolve(scan + "_height-maps.dcm"));
    ForeignObject.of(elsewhere.resolve(scan + "_regions.dcm"), "2.25.1005")
        .inEvery(Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE, item -> renamed(item))
        .write(name("regions"));
    new ForeignSegments(objects).write(elsewhere.resolve(scan + "_regions.dcm"));
    ForeignObject.of(elsewhere.resolve(leftScan + "_height-maps.dcm"), "2.25.1009")
        .write(name("left-eye"));
    ForeignMaps maps = new ForeignMaps(objects);
    maps.fields(elsewhere.resolve(scan + "_RNFL-GCL-IPL-INL.dcm"));
    maps.map(elsewhere.resolve(scan + "_ILM-RPE.dcm"));
  }

  private void heights(Path heights) throws IOException, ObjectDefect {
    ForeignObject.of(heights, "2.25.1001").pixels(b -> lower(b, 7)).write(name("heights"));
    ForeignObject.of(heights, "2.25.1002")
        .inEvery(
            Tags.SEGMENTED_PROPERTY_TYPE_CODE_SEQUENCE,
            item -> of(item).value().equals("128299") ? code("128298", "Centre of the RPE") : item)
        .write(name("centre-of-rpe"));
  }

  private void brokenHeights(Path heights) throws IOException, ObjectDefect {
    ForeignObject.of(heights, "2.25.1006")
        .inEvery(
            Tags.SEGMENT_IDENTIFICATION_SEQUENCE,
            item -> item.toBuilder().numbers(Tags.REFERENCED_SEGMENT_NUMBER, Vr.US, 99).build())
        .write(name("heights-of-no-segment"));
    byte[] whole = Files.readAllBytes(ForeignObject.of(heights, "2.25.1007").write(name("cut")));
    Files.write(name("cut"), Arrays.copyOf(whole, whole.length - 1000));
  }

  private void reports(Path report) throws IOException, ObjectDefect {
    ForeignObject.of(report, "2.25.1003")
        .inEvery(
            Tags.CONCEPT_CODE_SEQUENCE,
            item -> of(item).value().equals("111928") ? code("111929", "ILM to BM") : item)
        .write(name("report-to-bm"));
    ForeignObject.of(report, "2.25.1004")
        .inEvery(
            Tags.MEASURED_VALUE_SEQUENCE,
            item ->
                item.toBuilder()
                    .items(
                        Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, new Code("mm", "UCUM", "mm").toItem())
                    .build())
        .inEvery(Tags.CONTENT_SEQUENCE, item -> isFindings(item) ? withVolume(item) : item)
        .write(name("report-in-mm"));
    ForeignObject.of(report, "2.25.1015").write(name("report-alike"));
    ForeignObject.of(report, "2.25.1008")
        .with(b -> b.text(Tags.PATIENT_ID, Vr.LO, "TSEU-99999"))
        .write(name("other-patient"));
    ForeignObject.of(report, "2.25.1013")
        .inEvery(
            Tags.CONTENT_SEQUENCE,
            item -> item.toBuilder().remove(Tags.REFERENCED_SOP_SEQUENCE).build())
        .write(name("report-without-source"));
  }

  private static boolean isFindings(Dataset item) {
    return item.items(Tags.CONCEPT_NAME_CODE_SEQUENCE).stream()
        .anyMatch(name -> of(name).value().equals("121070"));
  }

  /** Adds the volume of a sector, for which the grid has no code. */
  private static Dataset withVolume(Dataset findings) {
    List<Dataset> content = new ArrayList<>(findings.items(Tags.CONTENT_SEQUENCE));
    Dataset value =
        Dataset.builder()
            .text(Tags.NUMERIC_VALUE, Vr.DS, "0.21")
            .items(Tags.MEASUREMENT_UNITS_CODE_SEQUENCE, new Code("mm3", "UCUM", "mm3").toItem())
            .build();
    content.add(
        Dataset.builder()
            .text(Tags.RELATIONSHIP_TYPE, Vr.CS, "CONTAINS")
            .text(Tags.VALUE_TYPE, Vr.CS, "NUM")
            .items(
                Tags.CONCEPT_NAME_CODE_SEQUENCE,
                new Code("V-1", "99GANNET", "Volume of a sector").toItem())
            .items(Tags.MEASURED_VALUE_SEQUENCE, value)
            .build());
    return findings.toBuilder().items(Tags.CONTENT_SEQUENCE, content).build();
  }

  private Path name(String name) {
    return objects.resolve(name);
  }

  private static Code of(Dataset item) {
    return Code.of(item).orElseThrow();
  }

  private static Dataset code(String value, String meaning) {
    return new Code(value, "DCM", meaning).toItem();
  }

  /** Two of our kinds under other systems' codes; the third keeps ours. */
  private static Dataset renamed(Dataset item) {
    return switch (of(item).value()) {
      case "1" -> OTHER_FLUID.toItem();
      case "2" -> FLUID.toItem();
      default -> item;
    };
  }

  private static byte[] lower(byte[] floats, double um) {
    ByteBuffer buffer = ByteBuffer.wrap(floats).order(ByteOrder.LITTLE_ENDIAN);
    for (int at = 0; at < floats.length; at += Float.BYTES) {
      buffer.putFloat(at, (float) (buffer.getFloat(at) + um / PIXEL_UM));
    }
    return floats;
  }
}
