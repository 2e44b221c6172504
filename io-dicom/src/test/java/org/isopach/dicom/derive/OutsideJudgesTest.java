package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Programs of dicom3tools, DCMTK and GDCM judge what we write; none shares code with ours. */
class OutsideJudgesTest {
  private static final String SECONDARY_CAPTURE = "1.2.840.10008.5.1.4.1.1.7";

  @TempDir Path folder;
  private Path map;

  @BeforeEach
  void writeMap() throws Exception {
    map = folder.resolve("map.dcm");
    MapWriteResult result =
        new OphthalmicThicknessMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
            .write(SampleMap.map(Layer.ILM_BM), SampleMap.scan(true), SampleMap.PROVENANCE, map);
    assertInstanceOf(MapWriteResult.Written.class, result);
  }

  @Test
  void theValidatorHasNothingButItsKnownLimitsToSay() throws Exception {
    String output = ToolRun.of("dciodvfy", map.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(KnownValidatorLimits.THICKNESS_MAP, output));
    assertTrue(output.contains("Information Object Not found"), "the limit is gone: " + output);

    Path scan = folder.resolve("scan.dcm");
    DicomWriters.partTen().write(scan, SandpiperScan.header(), new byte[SandpiperScan.PIXEL_BYTES]);
    String ofScan = ToolRun.of("dciodvfy", scan.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(KnownValidatorLimits.TOMOGRAPHY, ofScan));
    assertTrue(ofScan.startsWith("OphthalmicTomographyImage"), ofScan);
  }

  @Test
  void theValidatorAgreesOnTheFundusImageWithoutAnyExcuse() throws Exception {
    Path photograph = folder.resolve("photograph.dcm");
    Dataset object = SandpiperScan.photograph();
    DicomWriters.partTen().write(photograph, object, new byte[20]);
    String output = ToolRun.of("dciodvfy", photograph.toString()).output();
    String sopClass = object.text(Tags.SOP_CLASS_UID).orElseThrow();
    assertEquals(List.of(), KnownValidatorLimits.unexcused(sopClass, output));
    assertTrue(output.startsWith("OphthalmicPhotography8Bit"), output);
  }

  @Test
  void otherComplaintsOfTheValidatorAreNotExcused() throws Exception {
    Path scan = folder.resolve("scan.dcm");
    Dataset broken = SandpiperScan.header().toBuilder().remove(Tags.DETECTOR_TYPE).build();
    DicomWriters.partTen().write(scan, broken, new byte[SandpiperScan.PIXEL_BYTES]);
    String output = ToolRun.of("dciodvfy", scan.toString()).output();
    assertNotEquals(
        List.of(), KnownValidatorLimits.unexcused(KnownValidatorLimits.TOMOGRAPHY, output));
  }

  /** The pixels as dcm2pnm decodes them, row by row from the top; 0 where there is no value. */
  @Test
  void dcmtkDecodesTheStoredValues() throws Exception {
    Path picture = folder.resolve("map.pgm");
    ToolRun run = ToolRun.of("dcm2pnm", "--write-16-bit-pnm", map.toString(), picture.toString());
    assertEquals(0, run.exit(), run.output());
    String[] words = Files.readString(picture).trim().split("\\s+");
    assertEquals(List.of("P2", "5", "4", "65535"), Arrays.asList(words).subList(0, 4));
    List<String> expected = new ArrayList<>();
    for (int i = 0; i < 20; i++) {
      float um = SampleMap.value(i / 5, i % 5);
      expected.add(Float.isNaN(um) ? "0" : Long.toString(Math.round(um / 0.0625 + 1)));
    }
    assertEquals(expected, Arrays.asList(words).subList(4, 24));
  }

  @Test
  void dcmtkReadsAndRewritesTheObject() {
    Path copy = folder.resolve("copy.dcm");
    assertEquals(0, ToolRun.of("dcmconv", "+ti", map.toString(), copy.toString()).exit());
    ToolRun before = ToolRun.of("dcmdump", "-q", "+L", "+P", "7fe0,0010", map.toString());
    ToolRun after = ToolRun.of("dcmdump", "-q", "+L", "+P", "7fe0,0010", copy.toString());
    assertEquals(0, before.exit());
    assertEquals(before.output(), after.output());
    String whole = ToolRun.of("dcmdump", map.toString()).output();
    assertTrue(whole.contains("=OphthalmicThicknessMapStorage"), whole);
    assertTrue(!whole.contains("W:") && !whole.contains("E:"), whole);
  }

  /**
   * GDCM reads the attributes, but takes no class for an image that it does not know, and it does
   * not know this one. The same pixels under a class that it knows go through it unharmed.
   */
  @Test
  void gdcmReadsTheAttributesAndThePixels() throws Exception {
    ToolRun dump = ToolRun.of("gdcmdump", map.toString());
    assertEquals(0, dump.exit(), dump.output());
    assertTrue(dump.output().contains("RETINAL_THICK"), dump.output());

    Path known = folder.resolve("known.dcm");
    Path copy = folder.resolve("copy.dcm");
    Dataset object = SampleMap.object();
    byte[] pixels = StoredThickness.pixels(SampleMap.map(Layer.ILM_BM));
    DicomWriters.partTen()
        .write(
            known,
            object.toBuilder().text(Tags.SOP_CLASS_UID, Vr.UI, SECONDARY_CAPTURE).build(),
            pixels);
    ToolRun run = ToolRun.of("gdcmconv", "--raw", known.toString(), copy.toString());
    assertEquals(0, run.exit(), run.output());
    ToolRun before = ToolRun.of("dcmdump", "-q", "+L", "+P", "7fe0,0010", known.toString());
    ToolRun after = ToolRun.of("dcmdump", "-q", "+L", "+P", "7fe0,0010", copy.toString());
    assertEquals(before.output(), after.output());
  }
}
