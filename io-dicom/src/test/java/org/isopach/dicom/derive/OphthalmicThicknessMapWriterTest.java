package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.check.IodChecker;
import org.isopach.dicom.check.PixelContent;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.MapWriteResult.Reason;
import org.isopach.dicom.derive.MapWriteResult.Refused;
import org.isopach.dicom.derive.MapWriteResult.Written;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OphthalmicThicknessMapWriterTest {
  private static final Path UNUSED = Path.of("unused");

  @TempDir Path folder;

  private Dataset written;
  private byte[] pixels;

  private MapWriteResult write(ThicknessMap map, OctScan scan, Dataset header, MapProvenance made)
      throws IOException {
    return new OphthalmicThicknessMapWriter(
            source -> header,
            (path, dataset, bytes) -> {
              written = dataset;
              pixels = bytes;
            })
        .write(map, scan, made, UNUSED);
  }

  private void writeOk(ThicknessMap map, OctScan scan) throws IOException {
    assertInstanceOf(Written.class, write(map, scan, SandpiperScan.header(), SampleMap.PROVENANCE));
  }

  private Reason refused(ThicknessMap map, OctScan scan, Dataset header) throws IOException {
    written = null;
    Refused refused =
        assertInstanceOf(Refused.class, write(map, scan, header, SampleMap.PROVENANCE));
    assertFalse(refused.detail().isBlank());
    assertEquals(null, written);
    return refused.reason();
  }

  @Test
  void thicknessComesBackThroughTheMapping() throws Exception {
    writeOk(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true));
    Dataset mapping = written.items(Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE).get(0);
    double slope = number(mapping, Tags.REAL_WORLD_VALUE_SLOPE);
    double intercept = number(mapping, Tags.REAL_WORLD_VALUE_INTERCEPT);
    double first = number(mapping, Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED);
    ByteBuffer buffer = ByteBuffer.wrap(pixels).order(ByteOrder.LITTLE_ENDIAN);
    for (int row = 0; row < 4; row++) {
      for (int column = 0; column < 5; column++) {
        int stored = buffer.getShort() & 0xffff;
        float expected = SampleMap.value(row, column);
        if (Float.isNaN(expected)) {
          assertEquals(number(written, Tags.PIXEL_PADDING_VALUE), stored);
          assertTrue(stored < first);
        } else {
          assertEquals(expected, slope * stored + intercept, 0.05);
        }
      }
    }
    assertEquals(0, buffer.remaining());
    assertEquals(List.of("0.05", "0.05"), written.texts(Tags.PIXEL_SPACING));
  }

  @ParameterizedTest
  @CsvSource({
    "ILM-BM, 111929, 1",
    "ILM-RPE, 111928, 2",
    "ILM-EZ, 111927, 3",
    "ILM-RNFL-GCL, 111925, 4",
    "ILM-IPL-INL, 111926, 5"
  })
  void layersOfTheStandardCarryTheirCode(String layer, String code, String number)
      throws Exception {
    writeOk(SampleMap.map(Layer.ofName(layer).orElseThrow()), SampleMap.scan(true));
    Dataset item = written.items(Tags.RETINAL_THICKNESS_DEFINITION_CODE_SEQUENCE).get(0);
    assertEquals(code, Code.of(item).orElseThrow().value());
    assertEquals(Optional.of(number), written.text(Tags.INSTANCE_NUMBER));
  }

  @Test
  void otherLayersAreRefused() throws Exception {
    Layer layer = new Layer(Boundary.INL_OPL, Boundary.OPL_ONL);
    assertEquals(
        Reason.LAYER_WITHOUT_DEFINITION,
        refused(SampleMap.map(layer), SampleMap.scan(true), SandpiperScan.header()));
  }

  @Test
  void mapsOfAnotherScanOrEyeAreRefused() throws Exception {
    ThicknessMap map = SampleMap.map(Layer.ILM_BM);
    Dataset other =
        SandpiperScan.header().toBuilder().text(Tags.SOP_INSTANCE_UID, Vr.UI, "2.25.5").build();
    assertEquals(Reason.NOT_OF_THIS_SCAN, refused(map, SampleMap.scan(true), other));
    OctScan scan = SampleMap.scan(true);
    OctScan left =
        new OctScan(
            scan.identity(),
            scan.document(),
            Optional.of(map.laterality().other()),
            scan.size(),
            scan.axial(),
            scan.path(),
            scan.reference(),
            scan.statedAxialLengthMm(),
            scan.grey(),
            scan.frames());
    assertEquals(Reason.NOT_OF_THIS_SCAN, refused(map, left, SandpiperScan.header()));
  }

  @Test
  void valuesThatCannotBeStoredAreRefused() throws Exception {
    for (float bad : new float[] {-0.1f, 4100}) {
      float[] values = SampleMap.values();
      values[7] = bad;
      ThicknessMap map = SampleMap.map(Layer.ILM_BM, Landmark.Source.FOVEAL_PIT, values);
      assertEquals(Reason.OUT_OF_RANGE, refused(map, SampleMap.scan(true), SandpiperScan.header()));
    }
    float[] none = new float[20];
    java.util.Arrays.fill(none, Float.NaN);
    ThicknessMap empty = SampleMap.map(Layer.ILM_BM, Landmark.Source.FOVEAL_PIT, none);
    assertEquals(Reason.NO_VALUES, refused(empty, SampleMap.scan(true), SandpiperScan.header()));
  }

  @Test
  void whatTheSourceMustHaveIsNotInvented() throws Exception {
    int[] needed = {
      Tags.STUDY_INSTANCE_UID,
      Tags.ACQUISITION_DATETIME,
      Tags.DEPTH_SPATIAL_RESOLUTION,
      Tags.MAXIMUM_DEPTH_DISTORTION
    };
    for (int tag : needed) {
      Dataset header = SandpiperScan.header().toBuilder().remove(tag).build();
      assertEquals(
          Reason.SOURCE_INCOMPLETE,
          refused(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true), header));
    }
    Dataset lossy =
        SandpiperScan.header().toBuilder().text(Tags.LOSSY_IMAGE_COMPRESSION, Vr.CS, "01").build();
    assertEquals(
        Reason.SOURCE_INCOMPLETE,
        refused(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true), lossy));
  }

  @Test
  void lossyHistoryAndDilationAreKept() throws Exception {
    Dataset header =
        SandpiperScan.header().toBuilder()
            .text(Tags.LOSSY_IMAGE_COMPRESSION, Vr.CS, "01")
            .text(Tags.LOSSY_IMAGE_COMPRESSION_RATIO, Vr.DS, "12")
            .text(Tags.LOSSY_IMAGE_COMPRESSION_METHOD, Vr.CS, "ISO_15444_1")
            .text(Tags.PUPIL_DILATED, Vr.CS, "YES")
            .text(Tags.SPECIFIC_CHARACTER_SET, Vr.CS, "ISO_IR 100")
            .text(Tags.PATIENT_NAME, Vr.PN, "Möwe^Ansgar")
            .remove(Tags.PATIENT_BIRTH_DATE)
            .build();
    write(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true), header, SampleMap.PROVENANCE);
    assertEquals(Optional.of("12"), written.text(Tags.LOSSY_IMAGE_COMPRESSION_RATIO));
    assertEquals(Optional.of("Möwe^Ansgar"), written.text(Tags.PATIENT_NAME));
    assertEquals(0, written.element(Tags.PATIENT_BIRTH_DATE).orElseThrow().multiplicity());
    assertTrue(written.has(Tags.MYDRIATIC_AGENT_SEQUENCE));
    assertEquals(
        List.of(),
        IodChecker.standard().check(written, PixelContent.ofBytes(pixels.length)).violations());
  }

  @Test
  void namesInSwitchedCharacterSetsAreWrittenInUtf8() throws Exception {
    String name = "Chidori^Umi=千鳥^海";
    Dataset header =
        SandpiperScan.header().toBuilder()
            .text(Tags.SPECIFIC_CHARACTER_SET, Vr.CS, "", "ISO 2022 IR 87")
            .text(Tags.PATIENT_NAME, Vr.PN, name)
            .build();
    Path file = folder.resolve("map.dcm");
    new OphthalmicThicknessMapWriter(scan -> header, DicomWriters.partTen())
        .write(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true), SampleMap.PROVENANCE, file);
    String dump =
        ToolRun.of("dcmdump", "+P", "0010,0010", "+P", "0008,0005", file.toString()).output();
    assertTrue(dump.contains("[" + name + "]"), dump);
    assertTrue(dump.contains("[ISO_IR 192]"), dump);
  }

  /** By hand: (1.5 - 0.1 - 0.025) / 0.01 across, (2.4 - 0.05 - 0.025) / 0.02 down. */
  @Test
  void mapLiesOnTheFundusImageInPixelsRowFirst() throws Exception {
    writeOk(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true));
    Dataset place = written.items(Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE).get(0);
    assertPair(116.25, 137.5, place, Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER);
    assertPair(126.25, 162.5, place, Tags.REGISTERED_LOCALIZER_BOTTOM_RIGHT_HAND_CORNER);
    assertPair(1.5, 2.5, written, Tags.ANATOMIC_STRUCTURE_REFERENCE_POINT);
    Dataset image = written.items(Tags.REFERENCED_INSTANCE_SEQUENCE).get(0);
    assertEquals(
        Optional.of(SandpiperScan.LOCALIZER_UID), image.text(Tags.REFERENCED_SOP_INSTANCE_UID));
  }

  /** PS3.16, CID 4266: 81016008, SCT, Optic nerve head. */
  @Test
  void aMapRoundTheDiscSaysSo() throws Exception {
    Layer fibres = new Layer(Boundary.ILM, Boundary.RNFL_GCL);
    writeOk(
        SampleMap.map(fibres, Landmark.Source.DISC_OPENING, SampleMap.values()),
        SampleMap.scan(true));
    Dataset structure = written.items(Tags.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE).get(0);
    assertEquals(Optional.of(new Code("81016008", "SCT", "Optic nerve head")), Code.of(structure));
    assertPair(1.5, 2.5, written, Tags.ANATOMIC_STRUCTURE_REFERENCE_POINT);
    assertEquals(
        List.of(), IodChecker.standard().check(written, PixelContent.ofBytes(40)).violations());
  }

  @Test
  void lengthsScaledToTheEyeAreTakenBackForTheImage() throws Exception {
    MapProvenance made = new MapProvenance("0.1.0", "", AcquisitionMethod.SPECTRAL_DOMAIN, 1.25);
    write(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true), SandpiperScan.header(), made);
    Dataset place = written.items(Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE).get(0);
    assertPair(93, 110, place, Tags.REGISTERED_LOCALIZER_TOP_LEFT_HAND_CORNER);
  }

  @Test
  void withoutFundusImageOrPitNothingIsClaimed() throws Exception {
    ThicknessMap map = SampleMap.map(Layer.ILM_BM, Landmark.Source.SCAN_MIDDLE, SampleMap.values());
    writeOk(map, SampleMap.scan(false));
    assertFalse(written.has(Tags.REGISTRATION_TO_LOCALIZER_SEQUENCE));
    assertFalse(written.has(Tags.REFERENCED_INSTANCE_SEQUENCE));
    assertFalse(written.has(Tags.ANATOMIC_STRUCTURE_REFERENCE_POINT));
    assertFalse(written.has(Tags.PRIMARY_ANATOMIC_STRUCTURE_SEQUENCE));
    assertEquals(
        List.of(), IodChecker.standard().check(written, PixelContent.ofBytes(40)).violations());
  }

  @Test
  void anotherValueOrAnotherCentreGivesAnotherUid() throws Exception {
    writeOk(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true));
    Dataset one = written;
    float[] values = SampleMap.values();
    values[0] += 1;
    writeOk(SampleMap.map(Layer.ILM_BM, Landmark.Source.FOVEAL_PIT, values), SampleMap.scan(true));
    assertNotEquals(one.text(Tags.SOP_INSTANCE_UID), written.text(Tags.SOP_INSTANCE_UID));
    writeOk(
        SampleMap.map(Layer.ILM_BM, Landmark.Source.SCAN_MIDDLE, SampleMap.values()),
        SampleMap.scan(true));
    assertNotEquals(one.text(Tags.SOP_INSTANCE_UID), written.text(Tags.SOP_INSTANCE_UID));
  }

  @Test
  void mapsOfOneRunShareASeriesAndNothingElse() throws Exception {
    writeOk(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true));
    Dataset one = written;
    writeOk(SampleMap.map(Layer.ILM_RPE), SampleMap.scan(true));
    Dataset two = written;
    write(
        SampleMap.map(Layer.ILM_BM),
        SampleMap.scan(true),
        SandpiperScan.header(),
        MapProvenance.of("0.1.0", "another step"));
    assertEquals(one.text(Tags.SERIES_INSTANCE_UID), two.text(Tags.SERIES_INSTANCE_UID));
    assertNotEquals(one.text(Tags.SOP_INSTANCE_UID), two.text(Tags.SOP_INSTANCE_UID));
    assertNotEquals(one.text(Tags.SERIES_INSTANCE_UID), written.text(Tags.SERIES_INSTANCE_UID));
    assertNotEquals(one.text(Tags.SOP_INSTANCE_UID), written.text(Tags.SOP_INSTANCE_UID));
    assertEquals(Optional.of("2.25.9010"), one.text(Tags.STUDY_INSTANCE_UID));
  }

  @Test
  void theSameMapGivesTheSameBytes() throws Exception {
    ThicknessMapWriter writer =
        new OphthalmicThicknessMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen());
    List<Path> files = List.of(folder.resolve("a.dcm"), folder.resolve("b.dcm"));
    files.parallelStream()
        .forEach(
            file -> {
              try {
                writer.write(
                    SampleMap.map(Layer.ILM_EZ), SampleMap.scan(true), SampleMap.PROVENANCE, file);
              } catch (IOException e) {
                throw new AssertionError(e);
              }
            });
    assertArrayEquals(Files.readAllBytes(files.get(0)), Files.readAllBytes(files.get(1)));
  }

  private static double number(Dataset dataset, int tag) {
    return ((Element.Numbers) dataset.element(tag).orElseThrow()).values().get(0);
  }

  private static void assertPair(double row, double column, Dataset dataset, int tag) {
    List<Double> pair = ((Element.Numbers) dataset.element(tag).orElseThrow()).values();
    assertEquals(2, pair.size());
    assertEquals(row, pair.get(0), 1e-9);
    assertEquals(column, pair.get(1), 1e-9);
  }
}
