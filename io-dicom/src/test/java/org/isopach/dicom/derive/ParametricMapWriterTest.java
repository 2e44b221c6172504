package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.check.CheckReport;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.IodChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.check.PixelContent;
import org.isopach.dicom.check.Violation;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
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
  void ourCheckerAcceptsIt() throws Exception {
    CheckReport report = FileChecker.standard().check(written("map.dcm", true));
    assertEquals(List.of(), report.violations());
  }

  @Test
  void ourCheckerMissesTheFrameType() throws Exception {
    Dataset object = object(written("map.dcm", true));
    Dataset shared = object.items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).get(0);
    Dataset broken =
        object.toBuilder()
            .items(
                Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE,
                shared.toBuilder().remove(Tags.PARAMETRIC_MAP_FRAME_TYPE_SEQUENCE).build())
            .build();
    List<Violation> found =
        IodChecker.standard().check(broken, PixelContent.ofBytes(80).asFloats()).violations();
    assertEquals(1, found.size(), found.toString());
    assertEquals(Violation.Rule.FUNCTIONAL_GROUP, found.get(0).rule());
  }

  /** A change has the baseline as its second source, in a study of its own. */
  @Test
  void namesTheBaselineOfAChange() throws Exception {
    Dataset baseline =
        SandpiperScan.header().toBuilder()
            .text(Tags.SOP_INSTANCE_UID, Vr.UI, "2.25.8001")
            .text(Tags.STUDY_INSTANCE_UID, Vr.UI, "2.25.8010")
            .text(Tags.SERIES_INSTANCE_UID, Vr.UI, "2.25.8011")
            .build();
    OctScan followUp = SampleMap.scan(false);
    OctScan earlier =
        SampleMap.scan(
            false,
            new ScanIdentity(
                "SANDPIPER-07", "2.25.8010", "2.25.8011", "2.25.8001", Optional.empty()));
    MicrometreMap map =
        MicrometreMap.of(SampleMap.map(new Layer(Boundary.INL_OPL, Boundary.OPL_ONL)));
    Path file = folder.resolve("change.dcm");
    ParametricMapWriter writer =
        new ParametricMapWriter(
            scan -> scan.equals(followUp) ? SandpiperScan.header() : baseline,
            DicomWriters.partTen());
    String uid = uid(writer.write(map, followUp, earlier, followUp, 1, MADE, file));
    Dataset object = object(file);

    Dataset derivation =
        object
            .items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE)
            .get(0)
            .items(Tags.DERIVATION_IMAGE_SEQUENCE)
            .get(0);
    assertEquals(
        List.of(SandpiperScan.SOP_UID, "2.25.8001"),
        derivation.items(Tags.SOURCE_IMAGE_SEQUENCE).stream()
            .map(item -> item.text(Tags.REFERENCED_SOP_INSTANCE_UID).orElseThrow())
            .toList());
    assertEquals(
        "Isopach 0.1.0; lattice 0.05 mm",
        derivation.text(Tags.DERIVATION_DESCRIPTION).orElseThrow());
    assertEquals(
        "2.25.8010",
        object
            .items(Tags.STUDIES_CONTAINING_OTHER_REFERENCED_INSTANCES_SEQUENCE)
            .get(0)
            .text(Tags.STUDY_INSTANCE_UID)
            .orElseThrow());
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    String output = ToolRun.of("dciodvfy", file.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(ParametricMapObject.SOP_CLASS_UID, output));
    assertNotEquals(uid, uid(writer.write(map, followUp, 1, MADE, file)));
    assertInstanceOf(
        DerivedWriteResult.Refused.class,
        new ParametricMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
            .write(map, followUp, earlier, followUp, 1, MADE, file));
  }

  @Test
  void anotherParameterGivesAnotherUid() throws Exception {
    MicrometreMap map =
        MicrometreMap.of(SampleMap.map(new Layer(Boundary.INL_OPL, Boundary.OPL_ONL)));
    ParametricMapWriter writer =
        new ParametricMapWriter(scan -> SandpiperScan.header(), DicomWriters.partTen());
    OctScan scan = SampleMap.scan(true);
    Path file = folder.resolve("map.dcm");
    String uid = uid(writer.write(map, scan, 1, MADE, file));
    assertEquals(uid, uid(writer.write(map, scan, 1, MADE, file)));
    assertNotEquals(uid, uid(writer.write(map, scan, 1.01, MADE, file)));
    DerivedProvenance other = new DerivedProvenance("0.1.0", "lattice 0.04 mm");
    assertNotEquals(uid, uid(writer.write(map, scan, 1, other, file)));
  }

  private static String uid(DerivedWriteResult result) {
    return assertInstanceOf(DerivedWriteResult.Written.class, result).sopInstanceUid();
  }

  private static Dataset object(Path file) throws Exception {
    return ParsedObject.of(file, new PixelMedObjectReader()).attributes();
  }

  @Test
  void theSameInputGivesTheSameBytes() throws Exception {
    assertArrayEquals(
        Files.readAllBytes(written("a.dcm", true)), Files.readAllBytes(written("b.dcm", true)));
  }
}
