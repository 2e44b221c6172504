package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.scan.ReferenceImage;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.ScanDescription.PlacementSource;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.LocalizerBuilder;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Where A-scans are put, by which attributes, and what is said when they do not suffice. */
class PlacementTest {
  @TempDir Path folder;

  @Test
  void rowsAndColumnsOfTheFundusImageHaveTheirOwnScales() {
    ScanPath path =
        path(
            new TomographyBuilder()
                .withFrames(
                    (f, groups) ->
                        locate(groups, "LINEAR", 10 + f, 20 + 2 * f, 14 + f, 27 + 2 * f)),
            new LocalizerBuilder().with(b -> b.text(Tags.PIXEL_SPACING, Vr.DS, "0.03", "0.01")),
            FindingKind.SCALE_CONTRADICTION);
    assertEquals(0.20, path.xMm(0, 0), 1e-9);
    assertEquals(0.30, path.yMm(0, 0), 1e-9);
    assertEquals(0.31, path.xMm(2, 6), 1e-9, "column 31 of 0.01 mm");
    assertEquals(0.48, path.yMm(2, 6), 1e-9, "row 16 of 0.03 mm");
    assertEquals(0.235, path.xMm(0, 3), 1e-9, "half-way between the ends");
    assertEquals(0.36, path.yMm(0, 3), 1e-9);
  }

  @Test
  void circleByOnePointForEachAscan() {
    double[] points = new double[14];
    for (int j = 0; j < 7; j++) {
      points[2 * j] = 50 + 17 * Math.sin(2 * Math.PI * j / 7);
      points[2 * j + 1] = 60 + 17 * Math.cos(2 * Math.PI * j / 7);
    }
    ScanPath path =
        path(
            new TomographyBuilder()
                .withFrames(
                    (f, groups) ->
                        groups
                            .items(
                                Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE,
                                TomographyBuilder.location("NONLINEAR", points))
                            .items(
                                Tags.PIXEL_MEASURES_SEQUENCE,
                                TomographyBuilder.spacing("0.004", "0.1475"))),
            new LocalizerBuilder());
    assertEquals(ScanPattern.CIRCLE, path.pattern());
    assertEquals(0.77, path.xMm(1, 0), 1e-6);
    assertEquals(0.5, path.yMm(1, 0), 1e-6);
  }

  @Test
  void straightAndBentFramesTogether() {
    double[] bent = {10, 20, 11, 22, 10, 24, 11, 26, 10, 28, 11, 30, 10, 32};
    ScanPath path =
        path(
            new TomographyBuilder()
                .withFrames(
                    (f, groups) ->
                        locate(
                            groups,
                            f == 1 ? "NONLINEAR" : "LINEAR",
                            f == 1 ? bent : new double[] {10, 20, 10, 32})),
            new LocalizerBuilder().with(b -> b.text(Tags.PIXEL_SPACING, Vr.DS, "0.01", "0.01")),
            FindingKind.SCALE_CONTRADICTION);
    assertEquals(0.24, path.xMm(0, 2), 1e-9);
    assertEquals(0.10, path.yMm(0, 1), 1e-9);
    assertEquals(0.24, path.xMm(1, 2), 1e-9);
    assertEquals(0.11, path.yMm(1, 1), 1e-9);
  }

  @Test
  void frameOfNoLengthIsUnusable() {
    new TomographyBuilder()
        .withFrames((f, groups) -> locate(groups, "LINEAR", 5, 9, 5, f == 2 ? 9 : 21))
        .write(folder.resolve("scan"));
    assertTrue(
        read(FindingKind.ATTRIBUTE_IGNORED)
            .findings()
            .get(0)
            .detail()
            .contains("frame 3 has no length"));
  }

  @Test
  void missingFundusImageTakesTheScaleAlongTheScan() {
    new TomographyBuilder().write(folder.resolve("scan"));
    FolderContents contents = read(FindingKind.REFERENCE_IMAGE_MISSING);
    assertEquals(
        Optional.of(
            new ReferenceImage(
                "1.2.840.10008.5.1.4.1.1.77.1.5.1", "2.25.1002", 0, 0, 0.01, 0.01, "", "", false)),
        contents.scans().get(0).reference());
    ScanPath path = contents.scans().get(0).path().orElseThrow();
    assertEquals(0.02, path.ascanSpacingMm(), 1e-6);
    assertEquals(0.15, path.yMm(1, 0) - path.yMm(0, 0), 1e-6);
  }

  @Test
  void fundusImageWithoutSpacingTakesTheScaleAlongTheScan() {
    new TomographyBuilder().write(folder.resolve("scan"));
    new LocalizerBuilder().with(b -> b.remove(Tags.PIXEL_SPACING)).write(folder.resolve("fundus"));
    FolderContents contents = read(FindingKind.REFERENCE_IMAGE_MISSING);
    ReferenceImage image = contents.scans().get(0).reference().orElseThrow();
    assertEquals(0.01, image.rowSpacingMm(), 1e-9);
    assertEquals(4, image.rows());
    assertEquals(6, image.columns());
  }

  @Test
  void scalesThatDisagreeByMoreThanTwoPercentAreNoted() {
    new TomographyBuilder().write(folder.resolve("scan"));
    LocalizerBuilder image =
        new LocalizerBuilder().with(b -> b.text(Tags.PIXEL_SPACING, Vr.DS, "0.0103", "0.0103"));
    image.write(folder.resolve("fundus"));
    ScanPath path = read(FindingKind.SCALE_CONTRADICTION).scans().get(0).path().orElseThrow();
    assertEquals(0.0206, path.ascanSpacingMm(), 1e-6, "that of the fundus image is used");
    new LocalizerBuilder()
        .with(b -> b.text(Tags.PIXEL_SPACING, Vr.DS, "0.0101", "0.0101"))
        .write(folder.resolve("fundus"));
    read();
  }

  @Test
  void planePositionWhenThereIsNoFrameLocation() {
    new TomographyBuilder()
        .withFrames((f, groups) -> groups.remove(Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE))
        .write(folder.resolve("scan"));
    FolderContents contents = read();
    assertEquals(PlacementSource.PLANE_POSITION, contents.descriptions().get(0).placement());
    assertEquals(Optional.empty(), contents.scans().get(0).reference());
    ScanPath path = contents.scans().get(0).path().orElseThrow();
    assertEquals(new FundusFrame(FundusFrame.Kind.PATIENT, "2.25.13"), path.frame());
    assertEquals(-1.5, path.xMm(0, 0), 1e-9, "+X is to the examiner's right");
    assertEquals(-1.38, path.xMm(0, 6), 1e-9);
    assertEquals(-1.0, path.yMm(0, 0), 1e-9, "+Z is up");
    assertEquals(-0.7, path.yMm(2, 0), 1e-9);
  }

  @Test
  void obliquePlanes() {
    new TomographyBuilder()
        .withFrames(
            (f, groups) ->
                orient(
                    groups.remove(Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE),
                    "0.6",
                    "0",
                    "0.8",
                    "0",
                    "1",
                    "0"))
        .write(folder.resolve("scan"));
    ScanPath path = read().scans().get(0).path().orElseThrow();
    assertEquals(-1.5 + 0.6 * 0.12, path.xMm(0, 6), 1e-9);
    assertEquals(-1.0 - 0.8 * 0.12, path.yMm(0, 6), 1e-9);
  }

  @ParameterizedTest
  @CsvSource({
    "LINEAR, 3",
    "NONLINEAR, 4",
    "OTHER, 4",
  })
  void unusableLocationFallsBackToPlanes(String shape, int numbers) {
    new TomographyBuilder()
        .withFrames((f, groups) -> locate(groups, shape, new double[numbers]))
        .write(folder.resolve("scan"));
    FolderContents contents = read(FindingKind.ATTRIBUTE_IGNORED);
    assertEquals(PlacementSource.PLANE_POSITION, contents.descriptions().get(0).placement());
    String detail = contents.findings().get(0).detail();
    assertTrue(detail.contains("\"" + shape + "\" with " + numbers + " numbers"), detail);
  }

  @Test
  void locationsOnDifferentImagesAreUnusable() {
    new TomographyBuilder()
        .withFrames(
            (f, groups) -> {
              if (f == 1) {
                groups.items(
                    Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE,
                    TomographyBuilder.location("LINEAR", 1, 1, 1, 9).toBuilder()
                        .text(Tags.REFERENCED_SOP_INSTANCE_UID, Vr.UI, "2.25.9")
                        .build());
              }
            })
        .write(folder.resolve("scan"));
    assertTrue(
        read(FindingKind.ATTRIBUTE_IGNORED)
            .findings()
            .get(0)
            .detail()
            .contains("frame 2 is missing or on another image"));
  }

  @Test
  void neitherLocationNorPlane() {
    new TomographyBuilder()
        .withFrames(
            (f, groups) ->
                groups
                    .remove(Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE)
                    .remove(Tags.PLANE_POSITION_SEQUENCE))
        .write(folder.resolve("scan"));
    FolderContents contents = read(FindingKind.NO_PLACEMENT);
    assertEquals(Optional.empty(), contents.scans().get(0).path());
    assertEquals(PlacementSource.NONE, contents.descriptions().get(0).placement());
  }

  @ParameterizedTest
  @CsvSource({"0", "-0.02"})
  void planePositionWithoutSpacingAlongTheScan(String along) {
    new TomographyBuilder()
        .withFrames(
            (f, groups) ->
                groups
                    .remove(Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE)
                    .items(Tags.PIXEL_MEASURES_SEQUENCE, TomographyBuilder.spacing("0.004", along)))
        .write(folder.resolve("scan"));
    FolderContents contents = read(FindingKind.NO_PLACEMENT);
    assertEquals(Optional.empty(), contents.scans().get(0).path());
    assertTrue(contents.findings().get(0).detail().contains("length along the scan is unknown"));
  }

  @Test
  void depthOutOfTheEyeIsRefusedEvenWithAFrameLocation() {
    new TomographyBuilder()
        .withFrames((f, groups) -> orient(groups, "1", "0", "0", "0", "-1", "0"))
        .write(folder.resolve("scan"));
    assertEquals(List.of(), read(FindingKind.UPSIDE_DOWN).scans());
  }

  @ParameterizedTest
  @CsvSource({
    "1,0,0,0,0,-1, does not run into the depth",
    "1,0,0,0.5,0.9,0, is not two unit vectors",
    "2,0,0,0,1,0, is not two unit vectors",
    "1,0,0,0,1,x, 'is \"1\\0\\0\\0\\1\\x\"'",
  })
  void unusableOrientations(
      String a, String b, String c, String d, String e, String f, String detail) {
    new TomographyBuilder()
        .withFrames(
            (frame, groups) ->
                orient(groups.remove(Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE), a, b, c, d, e, f))
        .write(folder.resolve("scan"));
    FolderContents contents = read(FindingKind.NO_PLACEMENT);
    assertTrue(
        contents.findings().get(0).detail().contains(detail), contents.findings().get(0).detail());
    assertEquals(Optional.empty(), contents.scans().get(0).path());
  }

  @Test
  void transverseFramesAreNoSections() {
    new TomographyBuilder()
        .withFrames((f, groups) -> locate(groups, "TRANSVERSE", 0, 0, 5, 7))
        .write(folder.resolve("scan"));
    assertEquals(List.of(), read(FindingKind.NOT_RETINAL_SECTION).scans());
  }

  @Test
  void oneAscanHasNoPath() {
    new TomographyBuilder().size(3, 1, 5).write(folder.resolve("scan"));
    assertEquals(Optional.empty(), read(FindingKind.NO_PLACEMENT).scans().get(0).path());
  }

  private ScanPath path(TomographyBuilder scan, LocalizerBuilder image, FindingKind... expected) {
    scan.write(folder.resolve("scan"));
    image.write(folder.resolve("fundus"));
    return read(expected).scans().get(0).path().orElseThrow();
  }

  private FolderContents read(FindingKind... expected) {
    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    assertEquals(
        List.of(expected),
        contents.findings().stream().map(f -> f.kind()).toList(),
        contents.findings().toString());
    return contents;
  }

  private static void locate(Dataset.Builder groups, String shape, double... coordinates) {
    groups.items(
        Tags.OPHTHALMIC_FRAME_LOCATION_SEQUENCE, TomographyBuilder.location(shape, coordinates));
  }

  private static void orient(Dataset.Builder groups, String... values) {
    groups.items(
        Tags.PLANE_ORIENTATION_SEQUENCE,
        Dataset.builder().text(Tags.IMAGE_ORIENTATION_PATIENT, Vr.DS, values).build());
  }
}
