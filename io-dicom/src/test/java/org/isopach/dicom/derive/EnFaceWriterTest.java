package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.map.MapLattice;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.read.EnFaceImage;
import org.isopach.dicom.read.EnFaceReader;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class EnFaceWriterTest {
  private static final DerivedProvenance MADE = new DerivedProvenance("0.1.0", "0.4 mm around");
  private static final SurfaceReference MEMBRANE =
      new SurfaceReference("2.25.7001", 11, Boundary.BM);
  private static final MapLattice LATTICE = new MapLattice(3, 5, 0.02, -0.04, -0.02);

  @TempDir Path folder;

  /** From the darkest to the brightest and beyond, then none. */
  private static float value(int row, int column) {
    return row == 2 && column == 4 ? Float.NaN : -5 + row * 5 + column;
  }

  private static EnFacePicture picture() {
    return new EnFacePicture(
        LATTICE,
        new FundusPoint(1.05, 2.1),
        new EnFacePicture.Slab(Boundary.BM, 15, 60),
        4,
        EnFaceWriterTest::value);
  }

  private DerivedWriteResult write(EnFacePicture picture, double scale, Path file)
      throws Exception {
    return new EnFaceWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(picture, MEMBRANE, SampleMap.scan(false), scale, MADE, file);
  }

  private Path written() throws Exception {
    Path file = folder.resolve("en-face.dcm");
    assertInstanceOf(DerivedWriteResult.Written.class, write(picture(), 1, file));
    return file;
  }

  @Test
  void ourCheckerAndTheValidatorAcceptIt() throws Exception {
    Path file = written();
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    String output = ToolRun.of("dciodvfy", file.toString()).output();
    assertEquals(List.of(), KnownValidatorLimits.unexcused(EnFaceObject.SOP_CLASS_UID, output));
    assertTrue(output.startsWith("OphthalmicOpticalCoherenceTomographyEnFaceImage"), output);
  }

  @Test
  void ourReaderGivesBackGreysSpacingAndSource() throws Exception {
    EnFaceImage read = EnFaceReader.read(written());
    assertEquals(LATTICE.rows(), read.rows());
    assertEquals(LATTICE.columns(), read.columns());
    assertEquals(LATTICE.stepMm(), read.rowMm(), 1e-12);
    assertEquals(LATTICE.stepMm(), read.columnMm(), 1e-12);
    assertEquals("128315", read.type().value());
    assertEquals(
        Set.of(SandpiperScan.header().text(Tags.SOP_INSTANCE_UID).orElseThrow()), read.sources());
    byte[] greys = EnFaceGrey.pixels(picture());
    for (int i = 0; i < greys.length; i++) {
      assertEquals(
          greys[i] & 0xff, read.grey(i / LATTICE.columns(), i % LATTICE.columns()), "pixel " + i);
    }
  }

  @Test
  void ourReaderTakesNoOtherObjectAndNoCutOne() throws Exception {
    Path file = written();
    byte[] bytes = Files.readAllBytes(file);
    Path cut = Files.write(folder.resolve("cut.dcm"), Arrays.copyOf(bytes, bytes.length - 9));
    assertThrows(ObjectDefect.class, () -> EnFaceReader.read(cut));
    Path photograph = folder.resolve("photograph.dcm");
    ToolRun.of("dcmconv", file.toString(), photograph.toString());
    ToolRun.of(
        "dcmodify",
        "-nb",
        "-m",
        "0008,0016=1.2.840.10008.5.1.4.1.1.77.1.5.1",
        photograph.toString());
    assertThrows(ObjectDefect.class, () -> EnFaceReader.read(photograph));
  }

  /** The pixels as dcm2pnm decodes them: 1 is 4 darker, 128 as the surroundings, 255 brighter. */
  @Test
  void dcmtkDecodesTheGreys() throws Exception {
    Path picture = folder.resolve("picture.pgm");
    ToolRun run =
        ToolRun.of(
            "dcm2pnm",
            "--no-windowing",
            "--write-8-bit-pnm",
            written().toString(),
            picture.toString());
    assertEquals(0, run.exit(), run.output());
    String[] words = Files.readString(picture).trim().split("\\s+");
    List<String> expected = new ArrayList<>(List.of("P2", "5", "3", "255"));
    for (int i = 0; i < 14; i++) {
      double cut = Math.max(-4, Math.min(4, -5 + i));
      expected.add(Long.toString(128 + (long) Math.rint(cut * 127 / 4)));
    }
    expected.add("0");
    assertEquals(expected, Arrays.asList(words));
  }

  @Test
  void saysWhereItLiesAndWhatItShows() throws Exception {
    Dataset object = ParsedObject.of(written(), new PixelMedObjectReader()).attributes();
    assertEquals(List.of("0.02", "0.02"), object.texts(Tags.PIXEL_SPACING));
    assertEquals("2.25.9012", object.text(Tags.FRAME_OF_REFERENCE_UID).orElseThrow());
    List<String> place = object.texts(Tags.IMAGE_POSITION_PATIENT);
    assertEquals(1.05 - 0.04, Double.parseDouble(place.get(0)), 1e-9);
    assertEquals(-(2.1 - 0.02), Double.parseDouble(place.get(2)), 1e-9);
    assertEquals(
        SandpiperScan.SOP_UID,
        object
            .items(Tags.SOURCE_IMAGE_SEQUENCE)
            .get(0)
            .text(Tags.REFERENCED_SOP_INSTANCE_UID)
            .orElseThrow());
    assertEquals(
        "Mean of 15 to 60 um below BM",
        object.text(Tags.OPHTHALMIC_IMAGE_TYPE_DESCRIPTION).orElseThrow());
    // 4 um to a pixel: 15 um are 3.75 of them, 60 um 15.
    List<Dataset> limits = object.items(Tags.REFERENCED_SURFACE_MESH_IDENTIFICATION_SEQUENCE);
    assertEquals(2, limits.size());
    assertEquals("2.25.7001", limits.get(0).text(Tags.REFERENCED_SOP_INSTANCE_UID).orElseThrow());
    String dump = ToolRun.of("dcmdump", written().toString()).output();
    assertTrue(dump.contains("UL 4 ") && dump.contains("UL 15 "), dump);
  }

  @Test
  void theSameInputGivesTheSameBytesAndAnotherParameterAnotherUid() throws Exception {
    Path first = written();
    Path again = folder.resolve("again.dcm");
    String uid = uid(write(picture(), 1, again));
    assertArrayEquals(Files.readAllBytes(first), Files.readAllBytes(again));
    assertNotEquals(uid, uid(write(picture(), 1.02, again)));
    EnFacePicture deeper =
        new EnFacePicture(
            LATTICE,
            new FundusPoint(1.05, 2.1),
            new EnFacePicture.Slab(Boundary.BM, 20, 60),
            4,
            EnFaceWriterTest::value);
    assertNotEquals(uid, uid(write(deeper, 1, again)));
  }

  private static String uid(DerivedWriteResult result) {
    return assertInstanceOf(DerivedWriteResult.Written.class, result).sopInstanceUid();
  }

  @Test
  void aPictureWithoutAnyValueIsRefused() throws Exception {
    EnFacePicture empty =
        new EnFacePicture(
            LATTICE,
            new FundusPoint(0, 0),
            new EnFacePicture.Slab(Boundary.BM, 15, 60),
            4,
            (row, column) -> Float.NaN);
    assertInstanceOf(DerivedWriteResult.Refused.class, write(empty, 1, folder.resolve("none.dcm")));
  }
}
