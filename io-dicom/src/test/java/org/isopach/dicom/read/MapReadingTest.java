package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.MapProvenance;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.dicom.derive.OphthalmicThicknessMapWriter;
import org.isopach.dicom.fixture.LocalizerBuilder;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Thickness maps, ours and those made elsewhere, become the same kind of map. */
class MapReadingTest {
  private static final double HALF_STEP_UM = 0.03125;

  @TempDir Path folder;

  @Test
  void ownMapComesBackEqual() throws Exception {
    new TomographyBuilder()
        .with(
            b ->
                b.numbers(Tags.DEPTH_SPATIAL_RESOLUTION, Vr.FL, 7)
                    .numbers(Tags.MAXIMUM_DEPTH_DISTORTION, Vr.FL, 1))
        .write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    OctScan scan = DicomFolder.reader().read(List.of(folder)).scans().get(0);
    MapLattice lattice = new MapLattice(5, 9, 0.02, -0.1, -0.04);
    ThicknessMap written =
        new ThicknessMap(
            Layer.ILM_RPE,
            Laterality.RIGHT,
            lattice,
            new Landmark(new FundusPoint(0.02, 0.015), Landmark.Source.FOVEAL_PIT),
            scan.identity(),
            scan.document(),
            values(lattice.cells()));
    Path maps = Files.createDirectory(folder.resolve("maps"));
    MapWriteResult result =
        new OphthalmicThicknessMapWriter(DicomFolder.headers(), DicomWriters.partTen())
            .write(written, scan, MapProvenance.of("0.1", ""), maps.resolve("map"));
    assertInstanceOf(MapWriteResult.Written.class, result);

    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    assertEquals(List.of(), contents.findings());
    ThicknessMap read = contents.maps().get(0);
    assertEquals(written.layer(), read.layer());
    assertEquals(written.laterality(), read.laterality());
    assertEquals(written.scan().sopUid(), read.scan().sopUid());
    assertEquals(written.scan().acquired(), read.scan().acquired());
    assertEquals(5, read.lattice().rows());
    assertEquals(9, read.lattice().columns());
    assertEquals(0.02, read.lattice().stepMm(), 1e-12);
    assertEquals(-0.1, read.lattice().firstXMm(), 1e-7);
    assertEquals(-0.04, read.lattice().firstYMm(), 1e-7);
    assertEquals(Landmark.Source.STATED, read.centre().source());
    assertEquals(0.02, read.centre().point().xMm(), 1e-6);
    assertEquals(0.015, read.centre().point().yMm(), 1e-6);
    assertCells(written, read);
  }

  @Test
  void tableAndOddPixels() {
    ThicknessMap map =
        only(
            write(
                b ->
                    b.items(
                            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
                            mapping()
                                .numbers(Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.US, 2)
                                .numbers(Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.US, 4)
                                .numbers(Tags.REAL_WORLD_VALUE_LUT_DATA, Vr.FD, 210, 305.5, -1)
                                .build())
                        .text(Tags.PIXEL_SPACING, Vr.DS, "0.2", "0.1")));
    assertEquals(0.1, map.lattice().stepMm());
    assertEquals(4, map.lattice().rows(), "rows of 0.2 mm become two of 0.1 mm");
    assertEquals(3, map.lattice().columns());
    assertEquals(Float.NaN, map.micrometres(0, 0), "1 is below the first value mapped");
    assertEquals(210f, map.micrometres(0, 1));
    assertEquals(305.5f, map.micrometres(1, 2));
    assertEquals(Float.NaN, map.micrometres(2, 0), "negative thickness is none");
    assertEquals(Float.NaN, map.micrometres(3, 1), "5 is above the last value mapped");
    assertEquals(Landmark.Source.SCAN_MIDDLE, map.centre().source());
    assertEquals(new FundusPoint(0.15000000000000002, 0.2), map.centre().point());
    assertEquals(-0.1, map.lattice().firstXMm(), 1e-12);
    assertEquals(-0.15, map.lattice().firstYMm(), 1e-12);
  }

  @Test
  void slopePaddingAndFovea() {
    ThicknessMap map =
        only(
            write(
                b ->
                    b.numbers(Tags.PIXEL_PADDING_VALUE, Vr.US, 6)
                        .numbers(Tags.PIXEL_PADDING_RANGE_LIMIT, Vr.US, 5)
                        .items(
                            Tags.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE,
                            Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "67046006").build())
                        .numbers(Tags.ANATOMIC_STRUCTURE_REFERENCE_POINT, Vr.FL, 0.5, 2.5)));
    assertEquals(Layer.ILM_BM, map.layer());
    assertEquals(12f, map.micrometres(0, 0));
    assertEquals(18f, map.micrometres(1, 0));
    assertEquals(Float.NaN, map.micrometres(1, 1));
    assertEquals(Float.NaN, map.micrometres(1, 2));
    assertEquals(0, map.lattice().xMm(2), 1e-9, "the fovea is in column 2");
    assertEquals(0, map.lattice().yMm(0), 1e-9, "the fovea is in row 0");
  }

  @ParameterizedTest
  @CsvSource({
    "111927, ILM-EZ",
    "111928, ILM-RPE",
    "111929, ILM-BM",
  })
  void definitions(String code, String layer) {
    FolderContents contents =
        write(
            b ->
                b.items(
                    Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE,
                    Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, code).build()));
    assertEquals(layer, only(contents).layer().name());
  }

  @Test
  void mapsOfOtherThings() {
    assertRefused(
        FindingKind.DERIVED_OBJECT,
        b ->
            b.items(
                Tags.OPHTHALMIC_THICKNESS_MAP_TYPE_CODE_SEQUENCE,
                Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "111932").build()));
    assertRefused(
        FindingKind.DERIVED_OBJECT,
        b ->
            b.items(
                Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE,
                Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "111925").build()));
    assertRefused(FindingKind.NO_LATERALITY, b -> b.remove(Tags.IMAGE_LATERALITY));
    assertRefused(FindingKind.NO_PLACEMENT, b -> b.remove(Tags.PIXEL_SPACING));
    assertRefused(
        FindingKind.MALFORMED_ATTRIBUTE, b -> b.text(Tags.PIXEL_SPACING, Vr.DS, "abc", "1"));
    assertRefused(
        FindingKind.MALFORMED_ATTRIBUTE, b -> b.remove(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE));
  }

  private void assertRefused(FindingKind kind, Consumer<Dataset.Builder> change) {
    FolderContents contents = write(change);
    assertEquals(List.of(), contents.maps());
    assertTrue(
        contents.findings().stream().anyMatch(f -> f.kind() == kind),
        contents.findings().toString());
  }

  private static Dataset.Builder mapping() {
    return Dataset.builder()
        .items(
            Tags.MEASUREMENT_UNITS_CODE_SEQUENCE,
            Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "um").build());
  }

  /** A map of 2 x 3 pixels with the stored values 1 to 6, 2 µm each, 10 µm more. */
  private FolderContents write(Consumer<Dataset.Builder> change) {
    Dataset.Builder builder =
        Dataset.builder()
            .text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.81.1")
            .text(Tags.SOP_INSTANCE_UID, Vr.UI, "2.25.77")
            .text(Tags.ACQUISITION_DATETIME, Vr.DT, "20250314101530")
            .text(Tags.IMAGE_LATERALITY, Vr.CS, "L")
            .numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 1)
            .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "MONOCHROME2")
            .numbers(Tags.ROWS, Vr.US, 2)
            .numbers(Tags.COLUMNS, Vr.US, 3)
            .text(Tags.PIXEL_SPACING, Vr.DS, "0.1", "0.1")
            .numbers(Tags.BITS_ALLOCATED, Vr.US, 8)
            .numbers(Tags.BITS_STORED, Vr.US, 8)
            .numbers(Tags.HIGH_BIT, Vr.US, 7)
            .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 0)
            .items(
                Tags.OPHTHALMIC_THICKNESS_MAP_TYPE_CODE_SEQUENCE,
                Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "111930").build())
            .items(
                Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE,
                Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "111929").build())
            .items(
                Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
                mapping()
                    .numbers(Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.US, 0)
                    .numbers(Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.US, 255)
                    .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, 10)
                    .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, 2)
                    .build());
    change.accept(builder);
    try {
      DicomWriters.partTen()
          .write(folder.resolve("map"), builder.build(), new byte[] {1, 2, 3, 4, 5, 6});
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    return DicomFolder.reader().read(List.of(folder));
  }

  private static ThicknessMap only(FolderContents contents) {
    assertEquals(1, contents.maps().size(), contents.findings().toString());
    return contents.maps().get(0);
  }

  private static float[] values(int cells) {
    float[] values = new float[cells];
    for (int i = 0; i < cells; i++) {
      values[i] = i % 7 == 3 ? Float.NaN : 180.4f + 3.37f * i;
    }
    return values;
  }

  private static void assertCells(ThicknessMap expected, ThicknessMap actual) {
    for (int row = 0; row < expected.lattice().rows(); row++) {
      for (int column = 0; column < expected.lattice().columns(); column++) {
        assertEquals(
            expected.micrometres(row, column),
            actual.micrometres(row, column),
            HALF_STEP_UM + 1e-4,
            "row " + row + ", column " + column);
      }
    }
  }
}
