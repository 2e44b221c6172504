package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.UnaryOperator;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.DerivedProvenance;
import org.isopach.dicom.derive.DerivedWriteResult;
import org.isopach.dicom.derive.LayerCode;
import org.isopach.dicom.derive.MapFrame;
import org.isopach.dicom.derive.MicrometreMap;
import org.isopach.dicom.derive.ParametricMapWriter;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ParametricMapReaderTest {
  private static final Layer OPL = new Layer(Boundary.INL_OPL, Boundary.OPL_ONL);

  @TempDir Path folder;

  private Path written() throws Exception {
    Path file = folder.resolve("map.dcm");
    assertInstanceOf(
        DerivedWriteResult.Written.class,
        new ParametricMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
            .write(
                MicrometreMap.of(SampleMap.map(OPL)),
                SampleMap.scan(true),
                1,
                new DerivedProvenance("0.1.0", "lattice 0.05 mm"),
                file));
    return file;
  }

  private static Dataset shared(Dataset object) {
    return object.items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).get(0);
  }

  /** Writes the sample map with another shared group and other pixels. */
  private Path changed(
      UnaryOperator<Dataset> object, int macro, UnaryOperator<Dataset> item, byte[] pixels)
      throws Exception {
    Dataset old = ParsedObject.of(written(), new PixelMedObjectReader()).attributes();
    Dataset changed = item.apply(shared(old).items(macro).get(0));
    Dataset groups = shared(old).toBuilder().items(macro, changed).build();
    Dataset with = old.toBuilder().items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE, groups).build();
    Path file = folder.resolve("changed.dcm");
    DicomWriters.partTen().write(file, object.apply(with), pixels);
    return file;
  }

  private byte[] ownPixels() throws Exception {
    ParsedObject own = ParsedObject.of(written(), new PixelMedObjectReader());
    PixelLocation at = own.requirePixels();
    return own.source().read(at.offset(), (int) at.length());
  }

  private static FindingKind defect(Path file) {
    return assertThrows(ObjectDefect.class, () -> ParametricMapReader.read(file)).kind();
  }

  @Test
  void oursComesBackToTheBit() throws Exception {
    PlacedMap map = ParametricMapReader.read(written()).get(0);
    assertEquals(Optional.of(OPL), map.definition().flatMap(LayerCode::layer));
    assertEquals(Set.of(SandpiperScan.SOP_UID), map.sources());
    assertEquals(Optional.of(SampleMap.map(OPL).laterality()), map.laterality());
    for (int r = 0; r < SampleMap.LATTICE.rows(); r++) {
      for (int c = 0; c < SampleMap.LATTICE.columns(); c++) {
        assertEquals(SampleMap.map(OPL).micrometres(r, c), map.values().at(r, c));
      }
    }
    PlacedMap.InFrame frame = (PlacedMap.InFrame) map.anchors().get(0);
    assertEquals(MapFrame.uid(SandpiperScan.SOP_UID, 1), frame.frameUid());
    double x = SampleMap.map(OPL).centre().point().xMm() + SampleMap.LATTICE.firstXMm();
    double y = SampleMap.map(OPL).centre().point().yMm() + SampleMap.LATTICE.firstYMm();
    assertEquals(x, frame.place().first().xMm(), 1e-9);
    assertEquals(y, frame.place().first().yMm(), 1e-9);
    assertEquals(0.05, frame.place().across().xMm(), 1e-12);
    assertEquals(0.05, frame.place().down().yMm(), 1e-12);
  }

  /** DCMTK reads the quantity as we wrote it. */
  @Test
  void dcmtkReadsTheQuantity() throws Exception {
    String dump = ToolRun.of("dcmdump", "+P", "0008,0100", "+p", written().toString()).output();
    assertTrue(dump.contains("(0040,9220).(0040,a168).(0008,0100) SH [OPL]"), dump);
  }

  @Test
  void sixteenBitsInMillimetresWithPadding() throws Exception {
    int cells = SampleMap.LATTICE.cells();
    ByteBuffer pixels = ByteBuffer.allocate(2 * cells).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < cells; i++) {
      pixels.putShort((short) (i == 0 ? 0xffff : 1000 + i));
    }
    Path file =
        changed(
            object ->
                object.toBuilder()
                    .numbers(Tags.BITS_ALLOCATED, Vr.US, 16)
                    .numbers(Tags.BITS_STORED, Vr.US, 16)
                    .numbers(Tags.HIGH_BIT, Vr.US, 15)
                    .numbers(Tags.PIXEL_REPRESENTATION, Vr.US, 0)
                    .numbers(Tags.PIXEL_PADDING_VALUE, Vr.US, 0xffff)
                    .build(),
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
            item ->
                item.toBuilder()
                    .remove(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_FIRST_VALUE_MAPPED)
                    .remove(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED)
                    .numbers(Tags.REAL_WORLD_VALUE_FIRST_VALUE_MAPPED, Vr.US, 0)
                    .numbers(Tags.REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.US, 1010)
                    .numbers(Tags.REAL_WORLD_VALUE_SLOPE, Vr.FD, 0.0005)
                    .numbers(Tags.REAL_WORLD_VALUE_INTERCEPT, Vr.FD, -0.25)
                    .items(
                        Tags.MEASUREMENT_UNITS_CODE_SEQUENCE,
                        new Code("mm", "UCUM", "millimeter").toItem())
                    .build(),
            pixels.array());
    PlacedMap map = ParametricMapReader.read(file).get(0);
    assertTrue(Float.isNaN(map.values().at(0, 0)), "padding");
    assertEquals(250.5, map.values().at(0, 1), 1e-4); // 0.0005 mm * 1001 - 0.25 mm
    assertEquals(255, map.values().at(2, 0), 1e-4);
    assertTrue(Float.isNaN(map.values().at(2, 1)), "beyond the mapping");
  }

  @Test
  void doublesAreRead() throws Exception {
    int cells = SampleMap.LATTICE.cells();
    ByteBuffer pixels = ByteBuffer.allocate(8 * cells).order(ByteOrder.LITTLE_ENDIAN);
    for (int i = 0; i < cells; i++) {
      pixels.putDouble(200.123456789 + i);
    }
    Path file =
        changed(
            object -> object,
            Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
            item ->
                item.toBuilder()
                    .numbers(Tags.DOUBLE_FLOAT_REAL_WORLD_VALUE_LAST_VALUE_MAPPED, Vr.FD, 1e4)
                    .build(),
            pixels.array());
    byte[] bytes = Files.readAllBytes(file);
    int at = bytes.length - pixels.capacity() - 12; // E0 7F 08 00 "OF" 00 00 and the length
    assertEquals('F', bytes[at + 5]);
    bytes[at + 2] = 9;
    bytes[at + 5] = 'D';
    Files.write(file, bytes);
    PlacedMap map = ParametricMapReader.read(file).get(0);
    assertEquals((float) 200.123456789, map.values().at(0, 0));
    assertEquals((float) 219.123456789, map.values().at(3, 4));
  }

  @Test
  void whatIsNoLengthOrNotWholeIsRefused() throws Exception {
    assertEquals(
        FindingKind.MALFORMED_ATTRIBUTE,
        defect(
            changed(
                object -> object,
                Tags.REAL_WORLD_VALUE_MAPPING_SEQUENCE,
                item ->
                    item.toBuilder()
                        .items(
                            Tags.MEASUREMENT_UNITS_CODE_SEQUENCE,
                            new Code("1", "UCUM", "no units").toItem())
                        .build(),
                ownPixels())));
    assertEquals(
        FindingKind.PIXEL_DATA_SHORT,
        defect(
            changed(
                object -> object.toBuilder().numbers(Tags.ROWS, Vr.US, 9).build(),
                Tags.PIXEL_MEASURES_SEQUENCE,
                item -> item,
                ownPixels())));
  }

  /** A section in depth is no map of the fundus: values are there, a place is not. */
  @Test
  void aPlaneThatIsNotTheFundusHasNoPlace() throws Exception {
    PlacedMap map =
        ParametricMapReader.read(
                changed(
                    object -> object,
                    Tags.PLANE_ORIENTATION_SEQUENCE,
                    item ->
                        item.toBuilder()
                            .text(
                                Tags.IMAGE_ORIENTATION_PATIENT, Vr.DS, "1", "0", "0", "0", "1", "0")
                            .build(),
                    ownPixels()))
            .get(0);
    assertEquals(List.of(), map.anchors());
    assertTrue(map.noPlace().contains("not the plane of the fundus"), map.noPlace());
    assertEquals(Optional.of(Laterality.RIGHT), map.laterality());
  }
}
