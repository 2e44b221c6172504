package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class ParametricMapWriterTest {
  private static final DerivedProvenance MADE = new DerivedProvenance("0.1.0", "lattice 0.05 mm");

  @TempDir Path folder;

  private Path written(String name, boolean onImage) throws Exception {
    Path file = folder.resolve(name);
    MicrometreMap map =
        MicrometreMap.of(SampleMap.map(new Layer(Boundary.INL_OPL, Boundary.OPL_ONL)));
    assertInstanceOf(
        DerivedWriteResult.Written.class,
        new ParametricMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
            .write(map, SampleMap.scan(onImage), 1, MADE, file));
    return file;
  }

  @Test
  void theValidatorFindsNoError() throws Exception {
    String output = ToolRun.of("dciodvfy", written("map.dcm", false).toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(ParametricMapObject.SOP_CLASS_UID, output));
    assertTrue(output.startsWith("ParametricMap"), output);
  }

  /** DCMTK shows the values of Float Pixel Data as it reads them: a row is 3.7 um to a cell. */
  @Test
  void dcmtkReadsTheMicrometres() throws Exception {
    Path file = written("map.dcm", false);
    ToolRun dump = ToolRun.of("dcmdump", "+L", "+P", "7fe0,0008", file.toString());
    assertTrue(dump.output().contains("OF 200.0299988\\203.729996\\207.429993"), dump.output());
  }

  @Test
  void theSameInputGivesTheSameBytes() throws Exception {
    assertArrayEquals(
        Files.readAllBytes(written("a.dcm", true)), Files.readAllBytes(written("b.dcm", true)));
  }
}
