package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.read.HeightMap;
import org.isopach.dicom.read.HeightMapReader;
import org.isopach.dicom.read.ObjectDefect;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.read.PixelLocation;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class HeightMapWriterTest {
  private static final DerivedProvenance MADE = new DerivedProvenance("0.1.0", "confidence 0.5");

  private static final double LEAST = 0.3;

  @TempDir Path folder;

  /**
   * Every boundary 0.25 px below the one before, from 0.125 px; nothing at frame 1, A-scan 5, and
   * hardly anything to go by at A-scan 3.
   */
  private static BoundarySet boundaries(float first) {
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    float depth = first;
    for (Boundary boundary : Boundary.values()) {
      float[] depths = new float[12];
      Arrays.fill(depths, depth);
      depths[11] = Float.NaN;
      float[] confidence = new float[12];
      Arrays.fill(confidence, 0.9f);
      confidence[9] = 0.29f;
      surfaces.put(boundary, new BoundarySurface(2, 6, depths, confidence));
      depth += 0.25f;
    }
    return new BoundarySet(surfaces);
  }

  private DerivedWriteResult write(BoundarySet set, DerivedProvenance made, Path target)
      throws Exception {
    return new HeightMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(set, LEAST, SampleMap.scan(true), made, target);
  }

  private Path written() throws Exception {
    Path file = folder.resolve("heights.dcm");
    assertInstanceOf(DerivedWriteResult.Written.class, write(boundaries(0.125f), MADE, file));
    return file;
  }

  @Test
  void everySurfaceComesBackHalfAPixelFurther() throws Exception {
    List<HeightMap> maps = HeightMapReader.read(written());
    List<Boundary> order = List.copyOf(EnumSet.allOf(Boundary.class));
    assertEquals(order.size(), maps.size());
    float expected = 0.625f;
    for (int i = 0; i < maps.size(); i++) {
      HeightMap map = maps.get(i);
      assertEquals(Optional.of(order.get(i)), SurfaceCode.boundary(map.surface()));
      assertEquals(List.of(SandpiperScan.SOP_UID), map.sources());
      assertEquals(expected, map.rowsFromTop(0, 0));
      assertEquals(expected, map.rowsFromTop(1, 4));
      assertTrue(Float.isNaN(map.rowsFromTop(1, 5)));
      assertTrue(Float.isNaN(map.rowsFromTop(1, 3)), "too little confidence");
      expected += 0.25f;
    }
  }

  /**
   * Surfaces at 0.625, 0.875, 1.125 rows and further down; what lies from 0.5 to 0.9 is padding.
   */
  @Test
  void paddingIsARange() throws Exception {
    ParsedObject object = ParsedObject.of(written(), new PixelMedObjectReader());
    PixelLocation pixels = object.pixels().orElseThrow();
    byte[] values = object.source().read(pixels.offset(), (int) pixels.length());
    Dataset padded =
        object.attributes().toBuilder()
            .numbers(Tags.FLOAT_PIXEL_PADDING_VALUE, Vr.FL, 0.5)
            .numbers(Tags.FLOAT_PIXEL_PADDING_RANGE_LIMIT, Vr.FL, 0.9f)
            .build();
    Path file = folder.resolve("padded.dcm");
    DicomWriters.partTen().write(file, padded, values);
    List<HeightMap> maps = HeightMapReader.read(file);
    assertTrue(Float.isNaN(maps.get(0).rowsFromTop(0, 0)));
    assertTrue(Float.isNaN(maps.get(1).rowsFromTop(0, 0)));
    assertEquals(1.125f, maps.get(2).rowsFromTop(0, 0));
  }

  @Test
  void ourCheckerAcceptsItAndTheValidatorDoesNotKnowIt() throws Exception {
    Path file = written();
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    String output = ToolRun.of("dciodvfy", file.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(KnownValidatorLimits.HEIGHT_MAP, output));
    assertTrue(output.contains("Information Object Not found"), "the limit is gone");
  }

  /** DCMTK shows the first values of Float Pixel Data as it reads them. */
  @Test
  void dcmtkReadsTheValues() throws Exception {
    ToolRun dump = ToolRun.of("dcmdump", "+L", "+P", "7fe0,0008", written().toString());
    assertEquals(0, dump.exit(), dump.output());
    assertTrue(dump.output().contains("OF 0.625\\0.625\\0.625"), dump.output());
  }

  @Test
  void theSameInputGivesTheSameBytesAndOtherDepthsAnotherUid() throws Exception {
    Path again = folder.resolve("again.dcm");
    Path first = written();
    String uid = uid(write(boundaries(0.125f), MADE, again));
    assertArrayEquals(Files.readAllBytes(first), Files.readAllBytes(again));
    assertNotEquals(uid, uid(write(boundaries(0.1875f), MADE, again)));
  }

  private static String uid(DerivedWriteResult result) {
    return assertInstanceOf(DerivedWriteResult.Written.class, result).sopInstanceUid();
  }

  @Test
  void aCutFileIsNotRead() throws Exception {
    Path file = written();
    byte[] whole = Files.readAllBytes(file);
    Path cut = folder.resolve("cut.dcm");
    Files.write(cut, Arrays.copyOf(whole, whole.length - 4));
    assertThrows(ObjectDefect.class, () -> HeightMapReader.read(cut));
  }

  @Test
  void boundariesOfAnotherShapeAreRefused() throws Exception {
    float[] one = {1};
    BoundarySet other =
        new BoundarySet(Map.of(Boundary.ILM, new BoundarySurface(1, 1, one, new float[] {1})));
    assertInstanceOf(
        DerivedWriteResult.Refused.class, write(other, MADE, folder.resolve("none.dcm")));
  }
}
