package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.file.FileDigest;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Software;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Registrations that a run finds become objects that the next run reads. */
class RegistrationFilesTest {
  private static final ScanPlan SMALL = ScanPlan.raster(new ScanSize(3, 16, 200), 7.74, 6, 6, 0);
  private static final FundusTransform IN_MAPS =
      FundusTransform.of(0.99, 2.5, new FundusPoint(4, 4), new FundusPoint(0.2, -0.1));

  @TempDir Path folder;

  @Test
  void comesBackInTheLengthsOfTheMaps() throws Exception {
    List<OctScan> rightEye = study();
    FoundRegistration found =
        FoundRegistration.of(
            measured(rightEye.get(0), 1.05), measured(rightEye.get(1), 0.98), IN_MAPS, "by hand");

    List<FileOutcome> written = write(EnumSet.of(Output.OBJECTS), found);
    FolderContents again = DicomFolder.reader().read(List.of(folder));

    Path target = new RunFolder(folder.resolve("run")).registration(sopUid(rightEye.get(1)));
    assertEquals(List.of(FileOutcome.written(target, FileDigest.sha256(target))), written);
    FundusTransform read =
        StatedRegistrations.of(again.registrations())
            .between(path(rightEye.get(1)).frame(), path(rightEye.get(0)).frame())
            .orElseThrow()
            .withLengths(0.98, 1.05);
    for (double x = 0; x <= 12; x += 6) {
      FundusPoint point = new FundusPoint(x, 12 - x);
      assertEquals(0, IN_MAPS.apply(point).distanceMm(read.apply(point)), 1e-9);
    }
    assertEquals(List.of(), again.findings());
    assertEquals(
        List.of(),
        new OwnOutput(folder.resolve("run")).leftOut(again).registrations(),
        "a run does not read its own output");
  }

  @Test
  void isNotWrittenWhenObjectsAreNotAskedFor() throws Exception {
    List<OctScan> rightEye = study();
    FoundRegistration found =
        FoundRegistration.of(
            measured(rightEye.get(0), 1), measured(rightEye.get(1), 1), IN_MAPS, "by hand");

    assertEquals(List.of(), write(EnumSet.of(Output.BOUNDARIES), found));
  }

  @Test
  void aRefusalIsAFindingAboutTheFollowUp() throws Exception {
    OctScan baseline = SampleScans.withoutPath(SampleScans.right("first.dcm", 0));
    OctScan followUp = SampleScans.right("second.dcm", 1);
    FoundRegistration found =
        FoundRegistration.of(measured(baseline, 1), measured(followUp, 1), IN_MAPS, "by hand");

    List<FileOutcome> outcomes = write(EnumSet.of(Output.OBJECTS), found);

    assertEquals(1, outcomes.size());
    assertEquals(Optional.empty(), outcomes.get(0).file());
    assertEquals(
        FindingKind.REGISTRATION_NOT_WRITTEN, outcomes.get(0).finding().orElseThrow().kind());
    assertEquals("second.dcm", outcomes.get(0).finding().orElseThrow().subject());
    assertTrue(outcomes.get(0).finding().orElseThrow().detail().startsWith("onto first.dcm: "));
  }

  /** Returns the right eye's scans of an invented study, first visit first. */
  private List<OctScan> study() throws Exception {
    new PhantomStudy(SMALL).write(folder.resolve("in"));
    List<OctScan> scans =
        DicomFolder.reader().read(List.of(folder.resolve("in"))).scans().stream()
            .filter(scan -> scan.laterality().equals(Optional.of(Laterality.RIGHT)))
            .toList();
    assertEquals(2, scans.size());
    return scans;
  }

  private List<FileOutcome> write(EnumSet<Output> outputs, FoundRegistration found)
      throws Exception {
    Path out = folder.resolve("run");
    RunFolder names = new RunFolder(out);
    JobRequest request = JobRequest.of(List.of(folder.resolve("in")), out).writing(outputs);
    RegistrationFiles files =
        new RegistrationFiles(DicomWriters.registrations(), names, Software.current());
    ExecutorService pool = Executors.newSingleThreadExecutor();
    try {
      return new RunFiles(
              names,
              request,
              Software.current(),
              new ObjectFiles(DicomWriters.thicknessMaps(), names, Software.current()),
              files,
              pool,
              JobListener.SILENT)
          .write(found);
    } finally {
      pool.shutdownNow();
    }
  }

  /** Nothing is measured in it; it lies where it says, lengths multiplied. */
  private static MeasuredScan measured(OctScan scan, double lateralScale) {
    Optional<MeasuredScan.Place> place =
        Optional.of(
            new MeasuredScan.Place(
                scan.path().map(path -> path.scaledBy(lateralScale)).orElseGet(() -> anywhere()),
                new Landmark(new FundusPoint(0, 0), Landmark.Source.SCAN_MIDDLE),
                lateralScale));
    return new MeasuredScan(
        scan,
        Optional.empty(),
        place,
        List.of(),
        RegionLabels.none(scan.size()),
        List.of(),
        List.of(),
        new ScanQuality(List.of(), OptionalDouble.empty(), OptionalDouble.empty()),
        Optional.empty(),
        Optional.empty(),
        0,
        0);
  }

  private static ScanPath anywhere() {
    return path(SampleScans.right("elsewhere.dcm", 0));
  }

  private static ScanPath path(OctScan scan) {
    return scan.path().orElseThrow();
  }

  private static String sopUid(OctScan scan) {
    return scan.identity().sopUid();
  }
}
