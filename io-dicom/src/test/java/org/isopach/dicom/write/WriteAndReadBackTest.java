package org.isopach.dicom.write;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.check.CheckReport;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.Violation;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.MapWriteResult;
import org.isopach.dicom.derive.ThicknessMapWriter;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** From a tomography file to a map file and back, through nothing but files. */
class WriteAndReadBackTest {
  @TempDir Path folder;
  private Path scanFile;
  private Path mapFile;
  private OctScan scan;
  private ThicknessMap map;

  @BeforeEach
  void readAScan() throws Exception {
    scanFile = folder.resolve("scan.dcm");
    mapFile = folder.resolve("map.dcm");
    DicomWriters.partTen()
        .write(scanFile, SandpiperScan.header(), new byte[SandpiperScan.PIXEL_BYTES]);
    scan = DicomFolder.reader().read(List.of(scanFile)).scans().get(0);
    ThicknessMap sample = SampleMap.map(Layer.ILM_RPE);
    map =
        new ThicknessMap(
            sample.layer(),
            sample.laterality(),
            sample.lattice(),
            new Landmark(scan.path().orElseThrow().middle(), Landmark.Source.FOVEAL_PIT),
            scan.identity(),
            scan.document(),
            SampleMap.values());
  }

  @Test
  void theMapComesBackWithItsValuesAndPlace() throws Exception {
    MapWriteResult result =
        DicomWriters.thicknessMaps().write(map, scan, SampleMap.PROVENANCE, mapFile);
    assertInstanceOf(MapWriteResult.Written.class, result);
    CheckReport report = FileChecker.standard().check(mapFile);
    assertEquals(List.of(), report.violations());

    ThicknessMap back = DicomFolder.reader().read(List.of(mapFile)).maps().get(0);
    assertEquals(map.layer(), back.layer());
    assertEquals(map.laterality(), back.laterality());
    assertEquals(map.lattice().rows(), back.lattice().rows());
    assertEquals(map.lattice().columns(), back.lattice().columns());
    assertEquals(map.lattice().firstXMm(), back.lattice().firstXMm(), 1e-9);
    assertEquals(map.lattice().firstYMm(), back.lattice().firstYMm(), 1e-9);
    assertEquals(map.scan().sopUid(), back.scan().sopUid());
    for (int row = 0; row < 4; row++) {
      for (int column = 0; column < 5; column++) {
        assertEquals(map.micrometres(row, column), back.micrometres(row, column), 0.0313);
      }
    }
  }

  @Test
  void theCheckerReadsWhatAFileLacks() throws Exception {
    assertTrue(FileChecker.standard().check(scanFile).clean());
    Dataset broken =
        SandpiperScan.header().toBuilder()
            .remove(Tags.DETECTOR_TYPE)
            .numbers(Tags.ROWS, Vr.US, 5)
            .build();
    DicomWriters.partTen().write(scanFile, broken, new byte[SandpiperScan.PIXEL_BYTES]);
    List<String> paths =
        FileChecker.standard().check(scanFile).violations().stream().map(Violation::path).toList();
    assertEquals(List.of("(0018,7004)", "(7FE0,0010)"), paths);
  }

  @Test
  void aSourceThatChangedIsNotDescribed() throws Exception {
    byte[] bytes = Files.readAllBytes(scanFile);
    bytes[bytes.length - 1] ^= 1;
    Files.write(scanFile, bytes);
    ThicknessMapWriter writer = DicomWriters.thicknessMaps();
    assertThrows(IOException.class, () -> writer.write(map, scan, SampleMap.PROVENANCE, mapFile));
    assertTrue(Files.notExists(mapFile));
  }
}
