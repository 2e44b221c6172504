package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.fixture.SampleMap;
import org.isopach.dicom.fixture.SandpiperScan;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.read.SegmentMask;
import org.isopach.dicom.read.SegmentationReader;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RegionSegmentationWriterTest {
  private static final DerivedProvenance MADE = new DerivedProvenance("0.1.0", "");

  @TempDir Path folder;

  /** Two kinds in frame 0 of 4 depths and 6 A-scans, one of them in frame 1 too. */
  private static RegionLabels labels(int extra) {
    RegionLabels.Builder labels =
        RegionLabels.builder(
            SampleMap.scan(true).size(),
            EnumSet.of(
                RegionKind.INTRARETINAL_FLUID,
                RegionKind.SUBRETINAL_FLUID,
                RegionKind.RPE_ELEVATION));
    byte[] first = new byte[24];
    first[3] = 1;
    first[9] = 1;
    first[22] = 2;
    first[extra] = 2;
    byte[] second = new byte[24];
    second[0] = 1;
    second[23] = 1;
    labels.set(0, first);
    labels.set(1, second);
    return labels.build();
  }

  private DerivedWriteResult write(RegionLabels labels, Path target) throws Exception {
    return new RegionSegmentationWriter(scan -> SandpiperScan.header(), DicomWriters.partTen())
        .write(labels, SampleMap.scan(true), MADE, target);
  }

  private Path written() throws Exception {
    Path file = folder.resolve("regions.dcm");
    assertInstanceOf(DerivedWriteResult.Written.class, write(labels(17), file));
    return file;
  }

  @Test
  void everyVoxelComesBack() throws Exception {
    List<SegmentMask> masks = SegmentationReader.read(written());
    RegionLabels expected = labels(17);
    assertEquals(3, masks.size());
    int inside = 0;
    for (SegmentMask mask : masks) {
      RegionKind kind = RegionCode.kind(mask.type()).orElseThrow();
      assertEquals(SandpiperScan.SOP_UID, mask.sourceUid());
      for (int depth = 0; depth < 4; depth++) {
        for (int ascan = 0; ascan < 6; ascan++) {
          boolean labelled = expected.label(mask.frame(), depth, ascan) == kind.label();
          assertEquals(labelled, mask.contains(depth, ascan), kind + " " + depth + " " + ascan);
          inside += labelled ? 1 : 0;
        }
      }
    }
    assertEquals(6, inside);
  }

  @Test
  void theValidatorFindsNoError() throws Exception {
    Path file = written();
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    String output = ToolRun.of("dciodvfy", file.toString()).output();
    assertEquals(
        List.of(), KnownValidatorLimits.unexcused(RegionSegmentationWriter.SOP_CLASS_UID, output));
    assertTrue(output.contains("Segmentation"), output);
  }

  /** Bits as DCMTK prints them: frames of 24 bits follow on, the first pixel lowest. */
  @Test
  void dcmtkReadsTheBits() throws Exception {
    String dump = ToolRun.of("dcmdump", "+L", "+P", "7fe0,0010", written().toString()).output();
    assertTrue(dump.contains("08\\02\\00\\01\\00\\80\\00\\00\\42"), dump);
  }

  @Test
  void theSameInputGivesTheSameBytesAndOtherVoxelsAnotherUid() throws Exception {
    Path first = written();
    Path again = folder.resolve("again.dcm");
    String uid = uid(write(labels(17), again));
    assertArrayEquals(Files.readAllBytes(first), Files.readAllBytes(again));
    assertNotEquals(uid, uid(write(labels(18), again)));
  }

  private static String uid(DerivedWriteResult result) {
    return assertInstanceOf(DerivedWriteResult.Written.class, result).sopInstanceUid();
  }

  @Test
  void nothingIsWrittenOfAScanWithoutRegions() throws Exception {
    Path file = folder.resolve("none.dcm");
    DerivedWriteResult result = write(RegionLabels.none(SampleMap.scan(true).size()), file);
    assertEquals(
        DerivedWriteResult.Reason.NO_VALUES,
        assertInstanceOf(DerivedWriteResult.Refused.class, result).reason());
    assertTrue(Files.notExists(file));
  }
}
