package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.scan.BirthDate;
import org.isopach.analysis.scan.DeviceModel;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.LocalizerBuilder;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A sound object is read whole: identity, geometry, eye, pixels. */
class TomographyReadingTest {
  @TempDir Path folder;

  @Test
  void soundObject() throws Exception {
    TomographyBuilder builder = new TomographyBuilder();
    builder.write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    assertEquals(List.of(), contents.findings());
    assertEquals(2, contents.filesSeen());
    OctScan scan = contents.scans().get(0);
    assertEquals("SANDPIPER-07", scan.identity().patientId());
    assertEquals("2.25.1001", scan.identity().sopUid());
    assertEquals(
        Optional.of(LocalDateTime.of(2025, 3, 14, 10, 15, 30, 250_000_000)),
        scan.identity().acquired());
    assertEquals(Optional.of(Laterality.RIGHT), scan.laterality());
    assertEquals(new ScanSize(3, 7, 5), scan.size());
    assertEquals(4.0, scan.axial().micrometresPerPixel(), 1e-12);
    assertEquals(Optional.of(23.5), scan.statedAxialLengthMm());
    assertEquals(64, scan.document().sha256().length());
    assertEquals(
        Optional.of(
            new ReferenceImage("1.2.840.10008.5.1.4.1.1.77.1.5.1", "2.25.1002", 4, 6, 0.01, 0.01)),
        scan.reference());
    assertPixels(builder, scan);
  }

  @Test
  void placesOnTheFundusImage() {
    new TomographyBuilder().write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    ScanPath path = DicomFolder.reader().read(List.of(folder)).scans().get(0).path().orElseThrow();
    assertEquals(new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, "2.25.1002"), path.frame());
    assertEquals(ScanPattern.RASTER, path.pattern());
    assertEquals(0.405, path.xMm(0, 0), 1e-6);
    assertEquals(1.0, path.yMm(0, 0), 1e-6);
    assertEquals(0.525, path.xMm(2, 6), 1e-6);
    assertEquals(1.3, path.yMm(2, 6), 1e-6);
  }

  /** PS3.5, table 6.2-1: DA is YYYYMMDD. 20443 days of 365.25 make the years. */
  @Test
  void whoAndByWhat() {
    new TomographyBuilder()
        .with(
            object ->
                object
                    .text(Tags.PATIENT_BIRTH_DATE, Vr.DA, "19690325")
                    .text(Tags.MANUFACTURER_MODEL_NAME, Vr.LO, "Wader One"))
        .write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    assertEquals(List.of(), contents.findings());
    OctScan scan = contents.scans().get(0);
    assertEquals(
        Optional.of(new DeviceModel("Tern Sound Instruments", "Wader One")), scan.device());
    assertEquals(Optional.of(new BirthDate(LocalDate.of(1969, 3, 25))), scan.born());
    assertEquals(20443 / 365.25, scan.ageYears().orElseThrow(), 1e-12);
  }

  @ParameterizedTest
  @CsvSource({
    "19690231, is not a date",
    "1969, is not a date",
    "00000000, is not a date",
    "20250315, is later than the acquisition",
  })
  void unusableBirthDatesAreLeftOutWithANote(String text, String why) {
    new TomographyBuilder()
        .with(object -> object.text(Tags.PATIENT_BIRTH_DATE, Vr.DA, text))
        .write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    OctScan scan = contents.scans().get(0);
    assertEquals(Optional.empty(), scan.born());
    assertEquals(Optional.empty(), scan.ageYears());
    assertEquals(
        List.of(FindingKind.ATTRIBUTE_IGNORED),
        contents.findings().stream().map(finding -> finding.kind()).toList());
    assertTrue(contents.findings().get(0).detail().contains(why));
  }

  @Test
  void missingAndEmptyBirthDateAndModelAreNoMatter() {
    new TomographyBuilder()
        .with(object -> object.text(Tags.PATIENT_BIRTH_DATE, Vr.DA))
        .write(folder.resolve("scan"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    assertEquals(List.of(), contents.findings());
    assertEquals(Optional.empty(), contents.scans().get(0).born());
    assertEquals(Optional.empty(), contents.scans().get(0).device());
  }

  private static void assertPixels(TomographyBuilder builder, OctScan scan) throws Exception {
    float[] frame = new float[scan.size().framePixels()];
    for (int f = 0; f < scan.size().frames(); f++) {
      scan.frames().read(f, frame);
      for (int d = 0; d < scan.size().depths(); d++) {
        for (int a = 0; a < scan.size().ascans(); a++) {
          assertEquals(builder.stored(f, a, d), frame[d * scan.size().ascans() + a]);
        }
      }
    }
    assertTrue(scan.grey().high() == 255);
  }
}
