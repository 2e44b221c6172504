package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.DerivedKind;
import org.isopach.dicom.DerivedObject;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.DerivedProvenance;
import org.isopach.dicom.derive.MicrometreMap;
import org.isopach.dicom.derive.ParametricMapWriter;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Objects that say what somebody found: listed, never in the way of a measurement. */
class DerivedFolderTest {
  @TempDir Path folder;

  private Path file;

  @BeforeEach
  void write() throws Exception {
    file = folder.resolve("map.dcm");
    new ParametricMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(
            MicrometreMap.of(SampleMap.map(new Layer(Boundary.RNFL_GCL, Boundary.IPL_INL))),
            SampleMap.scan(true),
            1,
            new DerivedProvenance("0.1.0", "lattice 0.05 mm"),
            file);
  }

  private FolderContents read() {
    return DicomFolder.reader().read(List.of(folder));
  }

  @Test
  void anObjectIsListedWithWhatItHoldsAndCostsNothing() {
    FolderContents contents = read();
    DerivedObject one = contents.derived().get(0);
    assertEquals(DerivedKind.PARAMETRIC_MAP, one.kind());
    assertEquals("Isopach 0.1.0", one.software());
    assertEquals(Set.of(SandpiperScan.SOP_UID), one.sources());
    assertEquals("RNFL-GCL-IPL-INL", one.holds().get(0).ours());
    Finding finding = contents.findings().get(0);
    assertEquals(FindingKind.DERIVED_OBJECT, finding.kind());
    assertEquals(FindingKind.Gravity.SKIPPED, finding.kind().gravity());
    assertEquals("the object is a " + one.title(), finding.detail());
  }

  @Test
  void aCutObjectIsANoteAndNotInTheList() throws Exception {
    byte[] whole = Files.readAllBytes(file);
    Files.write(file, Arrays.copyOf(whole, whole.length - 40));
    FolderContents contents = read();
    assertEquals(List.of(), contents.derived());
    assertEquals(FindingKind.DERIVED_NOT_READ, contents.findings().get(0).kind());
    assertEquals(FindingKind.Gravity.NOTE, contents.findings().get(0).kind().gravity());
  }

  @Test
  void copiesCountOnceAndContradictingOnesNotAtAll() throws Exception {
    Files.copy(file, folder.resolve("copy.dcm"));
    assertEquals(1, read().derived().size());
    Dataset other =
        ParsedObject.of(file, new PixelMedObjectReader()).attributes().toBuilder()
            .text(Tags.MANUFACTURER, Vr.LO, "Gannet Imaging")
            .build();
    DicomWriters.partTen().write(folder.resolve("copy.dcm"), other, new byte[4 * 20]);
    FolderContents contents = read();
    assertEquals(List.of(), contents.derived());
    assertEquals(2, contents.findings().size());
    for (Finding finding : contents.findings()) {
      assertEquals(FindingKind.DERIVED_NOT_READ, finding.kind());
      assertTrue(finding.detail().contains("2 different objects claim"), finding.detail());
    }
  }
}
