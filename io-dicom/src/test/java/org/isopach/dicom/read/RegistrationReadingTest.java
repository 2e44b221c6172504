package org.isopach.dicom.read;

import static org.isopach.dicom.fixture.RegistrationBuilder.identity;
import static org.isopach.dicom.fixture.RegistrationBuilder.matrix;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.RegistrationBuilder;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.fixture.TwoVisits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Registrations made elsewhere. Matrices are closed forms. */
class RegistrationReadingTest {
  private static final FundusFrame BASELINE_IMAGE = image(TwoVisits.BASELINE_IMAGE);
  private static final FundusFrame FOLLOW_UP_IMAGE = image(TwoVisits.FOLLOW_UP_IMAGE);
  private static final FundusFrame BASELINE = patient(TwoVisits.BASELINE_FRAME);
  private static final FundusFrame FOLLOW_UP = patient(TwoVisits.FOLLOW_UP_FRAME);

  @TempDir Path folder;

  /** Both are taken to a third system: what lies between them is one there and the other back. */
  @Test
  void joinsTwoImagesOverASystemThatIsNobodysHere() {
    TwoVisits.in(folder).write();
    new RegistrationBuilder()
        .image(
            TwoVisits.FOLLOW_UP_IMAGE,
            matrix("RIGID", "1\\0\\0\\5\\0\\1\\0\\7\\0\\0\\1\\0\\0\\0\\0\\1"))
        .image(
            TwoVisits.BASELINE_IMAGE,
            matrix("RIGID", "1\\0\\0\\4\\0\\1\\0\\9\\0\\0\\1\\2\\0\\0\\0\\1"))
        .write(folder.resolve("r"));

    FundusTransform found = stated().between(FOLLOW_UP_IMAGE, BASELINE_IMAGE).orElseThrow();

    double halfColumn = (TwoVisits.BASELINE_PIXEL_MM - TwoVisits.FOLLOW_UP_COLUMN_MM) / 2;
    double halfRow = (TwoVisits.BASELINE_PIXEL_MM - TwoVisits.FOLLOW_UP_ROW_MM) / 2;
    assertEquals(1 + halfColumn, found.translation().xMm(), 1e-12);
    assertEquals(-2 + halfRow, found.translation().yMm(), 1e-12);
    assertEquals(1, found.scale(), 1e-12);
    assertEquals(0, found.rotationDegrees(), 1e-12);
  }

  @Test
  void appliesSeveralMatricesInTheirOrder() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder()
        .frame(TwoVisits.BASELINE_FRAME, identity())
        .frame(
            TwoVisits.FOLLOW_UP_FRAME,
            matrix("RIGID", "1\\0\\0\\2\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1"),
            matrix("RIGID_SCALE", "1.5\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1.5\\0\\0\\0\\0\\1"),
            matrix("AFFINE", "0\\0\\1\\0\\0\\1\\0\\0\\-1\\0\\0\\1\\0\\0\\0\\1"))
        .write(folder.resolve("r"));

    FundusTransform found = stated().between(FOLLOW_UP, BASELINE).orElseThrow();

    // (x, y) moves to (x + 2, y), grows by 1.5, turns clockwise to (-y, x), moves up by 1.
    FundusPoint end = found.apply(new FundusPoint(4, 3));
    assertEquals(-4.5, end.xMm(), 1e-12);
    assertEquals(8, end.yMm(), 1e-12);
    assertEquals(90, found.rotationDegrees(), 1e-12);
    assertEquals(1.5, found.scale(), 1e-12);
  }

  @Test
  void theRegisteredSystemNeedsNoItemOfItsOwn() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder()
        .frame(
            TwoVisits.FOLLOW_UP_FRAME,
            matrix("RIGID", "1\\0\\0\\2\\0\\1\\0\\9\\0\\0\\1\\0\\0\\0\\0\\1"))
        .with(b -> b.text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, TwoVisits.BASELINE_FRAME))
        .write(folder.resolve("r"));

    assertEquals(
        new FundusPoint(2, 0),
        stated().between(FOLLOW_UP, BASELINE).orElseThrow().translation(),
        "9 mm of depth move nothing on the fundus");
  }

  @Test
  void anItemMayNameATomographyInstead() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder()
        .frame(TwoVisits.BASELINE_FRAME, identity())
        .image("2.25.2001", matrix("RIGID", "1\\0\\0\\2\\0\\1\\0\\0\\0\\0\\1\\3\\0\\0\\0\\1"))
        .write(folder.resolve("r"));

    assertEquals(
        new FundusPoint(2, -3), stated().between(FOLLOW_UP, BASELINE).orElseThrow().translation());
  }

  /** The object as text, made a file by DCMTK: no code of ours has touched it. */
  @Test
  void readsAnObjectThatAnotherProgramWrote() throws Exception {
    TwoVisits.in(folder).onImages(false, true).write();
    Path text = Files.createTempFile("registration", ".txt");
    Files.writeString(
        text,
        String.join(
            "\n",
            "(0008,0016) UI [1.2.840.10008.5.1.4.1.1.66.1]",
            "(0008,0018) UI [2.25.7001]",
            "(0010,0020) LO [SANDPIPER-07]",
            "(0020,0052) UI [" + TwoVisits.BASELINE_FRAME + "]",
            "(0020,0060) CS [R]",
            "(0070,0308) SQ",
            "(fffe,e000) -",
            "(0008,1140) SQ",
            "(fffe,e000) -",
            "(0008,1150) UI [1.2.840.10008.5.1.4.1.1.77.1.5.1]",
            "(0008,1155) UI [" + TwoVisits.FOLLOW_UP_IMAGE + "]",
            "(fffe,e00d) -",
            "(fffe,e0dd) -",
            "(0070,0309) SQ",
            "(fffe,e000) -",
            "(0070,030d) SQ",
            "(fffe,e0dd) -",
            "(0070,030a) SQ",
            "(fffe,e000) -",
            "(3006,00c6) DS [1.02\\0\\0\\-3\\0\\0\\1\\0\\0\\-1.02\\0\\4\\0\\0\\0\\1]",
            "(0070,030c) CS [RIGID_SCALE]",
            "(fffe,e00d) -",
            "(fffe,e0dd) -",
            "(fffe,e00d) -",
            "(fffe,e0dd) -",
            "(fffe,e00d) -",
            "(fffe,e0dd) -",
            ""));
    ToolRun made =
        ToolRun.of("dump2dcm", "+te", text.toString(), folder.resolve("r.dcm").toString());
    assertEquals(0, made.exit(), made.output());

    FundusTransform found = stated().between(FOLLOW_UP_IMAGE, BASELINE).orElseThrow();

    // Column along X, row against Z, 3 mm to the patient's right and 4 mm to the head.
    FundusPoint corner = found.apply(new FundusPoint(0, 0));
    assertEquals(-3 - 1.02 * TwoVisits.FOLLOW_UP_COLUMN_MM / 2, corner.xMm(), 1e-12);
    assertEquals(-4 - 1.02 * TwoVisits.FOLLOW_UP_ROW_MM / 2, corner.yMm(), 1e-12);
    assertEquals(1.02, found.scale(), 1e-12);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "RIGID       | 1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0         | has 15 numbers",
        "RIGID       | 1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0 | has 18 numbers",
        "RIGID       | 1\\0\\0\\x\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1      | x",
        "RIGID       | 1\\0\\0\\NaN\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1    | NaN",
        "RIGID       | 1\\0\\0\\1e99\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1   | too large",
        "RIGID       | 1\\0\\0\\1e999\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1  | not finite",
        "RIGID       | 1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\2      | does not end",
        "RIGID       | 1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\5\\0\\0\\1      | does not end",
        "RIGID       | 1.02\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1.02\\0\\0\\0\\0\\1 | is not",
        "RIGID       | 1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\-1\\0\\0\\0\\0\\1     | is not",
        "RIGID_SCALE | 1\\0\\0.1\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1    | is not",
        "RIGID_SCALE | 1.1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1    | no similarity",
        "AFFINE      | 1\\0\\0.1\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1    | no similarity",
        "AFFINE      | 1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\-1\\0\\0\\0\\0\\1     | no similarity",
        "RIGID       | 1\\0\\0\\0\\0\\0.8\\-0.6\\0\\0\\0.6\\0.8\\0\\0\\0\\0\\1 | leaves the plane",
        "AFFINE      | 3\\0\\0\\0\\0\\1\\0\\0\\0\\0\\3\\0\\0\\0\\0\\1      | not believed",
        "AFFINE      | 1\\0\\0\\0\\0\\0\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1      | flattens",
        "DEFORMED    | 1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1      | none of the three",
      })
  void aMatrixThatCannotBeUsedIsNamed(String type, String numbers, String why) {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder()
        .frame(TwoVisits.BASELINE_FRAME, identity())
        .frame(TwoVisits.FOLLOW_UP_FRAME, matrix(type, numbers))
        .write(folder.resolve("r"));

    assertIgnored(why);
  }

  @Test
  void aMissingOrEmptyMatrixIsNamed() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder()
        .frame(TwoVisits.BASELINE_FRAME, identity())
        .frame(TwoVisits.FOLLOW_UP_FRAME)
        .write(folder.resolve("r"));

    assertIgnored("Matrix Sequence (0070,030A) has 0 items");
  }

  @Test
  void anItemThatNamesNothingIsNamed() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder().item(b -> {}, identity()).write(folder.resolve("r"));

    assertIgnored("names neither");
  }

  @Test
  void anObjectWithoutItemsIsNamed() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder().write(folder.resolve("r"));

    assertIgnored("has 0 items");
  }

  @Test
  void registeringOtherThingsIsSaid() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder()
        .frame("2.25.1", matrix("BROKEN", "1"))
        .image("2.25.2", identity())
        .frame(TwoVisits.FOLLOW_UP_FRAME, identity())
        .write(folder.resolve("r"));

    assertIgnored("registers no two coordinate systems");
  }

  @Test
  void oneSystemInTwoPlacesIsNamed() {
    TwoVisits.in(folder).onImages(false, false).write();
    new RegistrationBuilder()
        .frame(
            TwoVisits.BASELINE_FRAME,
            matrix("RIGID", "1\\0\\0\\1\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1"))
        .frame(TwoVisits.FOLLOW_UP_FRAME, identity())
        .with(b -> b.text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, TwoVisits.BASELINE_FRAME))
        .write(folder.resolve("r"));

    assertIgnored("a second time");
  }

  @ParameterizedTest
  @ValueSource(strings = {"other patient", "no patient", "other eye", "eyes differ"})
  void anotherPatientOrEyeIsNamed(String what) {
    TwoVisits.in(folder)
        .onImages(false, false)
        .followUp(
            b -> {
              if (what.equals("eyes differ")) {
                b.text(Tags.IMAGE_LATERALITY, Vr.CS, "L")
                    .remove(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE)
                    .items(
                        Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE,
                        Dataset.builder()
                            .items(
                                Tags.PIXEL_MEASURES_SEQUENCE,
                                TomographyBuilder.spacing("0.004", "0.02"))
                            .items(
                                Tags.PLANE_ORIENTATION_SEQUENCE,
                                Dataset.builder()
                                    .text(
                                        Tags.IMAGE_ORIENTATION_PATIENT,
                                        Vr.DS,
                                        "1",
                                        "0",
                                        "0",
                                        "0",
                                        "1",
                                        "0")
                                    .build())
                            .build());
              }
            })
        .write();
    new RegistrationBuilder()
        .frame(TwoVisits.BASELINE_FRAME, identity())
        .frame(TwoVisits.FOLLOW_UP_FRAME, identity())
        .with(
            b -> {
              switch (what) {
                case "other patient" -> b.text(Tags.PATIENT_ID, Vr.LO, "SANDPIPER-08");
                case "no patient" -> b.remove(Tags.PATIENT_ID);
                case "other eye" -> b.text(Tags.LATERALITY, Vr.CS, "L");
                default -> b.text(Tags.CONTENT_LABEL, Vr.CS, "VISITS");
              }
            })
        .write(folder.resolve("r"));

    assertIgnored(what.contains("eye") ? "more than one eye: L, R" : "is of patient \"");
  }

  @Test
  void anImageWithoutScaleIsNamed() {
    TwoVisits.in(folder).image(b -> b.remove(Tags.PIXEL_SPACING)).write();
    new RegistrationBuilder()
        .image(TwoVisits.BASELINE_IMAGE, identity())
        .image(TwoVisits.FOLLOW_UP_IMAGE, identity())
        .write(folder.resolve("r"));

    assertIgnored("Pixel Spacing (0028,0030) is missing");
  }

  @Test
  void singleFramesOfAnImageAreNamed() {
    TwoVisits.in(folder).write();
    new RegistrationBuilder()
        .image(TwoVisits.BASELINE_IMAGE, identity())
        .item(
            b ->
                b.items(
                    Tags.REFERENCED_IMAGE_SEQUENCE,
                    RegistrationBuilder.reference(TwoVisits.FOLLOW_UP_IMAGE)
                        .text(Tags.REFERENCED_FRAME_NUMBER, Vr.IS, "2")
                        .build()),
            identity())
        .write(folder.resolve("r"));

    assertIgnored("single frames");
  }

  @Test
  void copiesCountOnceWhateverTheirEncoding() {
    TwoVisits.in(folder).onImages(false, false).write();
    Path first = registration("r1", "2");
    ToolRun copy = ToolRun.of("dcmconv", "+ti", first.toString(), folder.resolve("r2").toString());
    assertEquals(0, copy.exit(), copy.output());

    FolderContents contents = read();

    assertEquals(1, contents.registrations().size());
    assertEquals(
        List.of(FindingKind.DUPLICATE_SAME),
        contents.findings().stream().map(Finding::kind).toList());
  }

  @Test
  void oneUidWithTwoContentsIsNotBelieved() {
    TwoVisits.in(folder).onImages(false, false).write();
    registration("r1", "2");
    registration("r2", "3");

    FolderContents contents = read();

    assertEquals(0, contents.registrations().size());
    assertEquals(
        List.of(FindingKind.DUPLICATE_DIFFERENT, FindingKind.DUPLICATE_DIFFERENT),
        contents.findings().stream().map(Finding::kind).toList());
  }

  @Test
  void objectsThatDisagreeAreNamed() {
    TwoVisits.in(folder).onImages(false, false).write();
    registration("r1", "2");
    new RegistrationBuilder()
        .frame(TwoVisits.FOLLOW_UP_FRAME, identity())
        .frame(TwoVisits.BASELINE_FRAME, identity())
        .with(b -> b.text(Tags.SOP_INSTANCE_UID, Vr.UI, "2.25.7009"))
        .write(folder.resolve("r2"));

    FolderContents contents = read();

    Finding finding = contents.findings().get(0);
    assertEquals(FindingKind.REGISTRATION_CONTRADICTION, finding.kind());
    assertEquals(folder.resolve("r2").toString(), finding.subject());
    assertEquals(
        Optional.empty(),
        StatedRegistrations.of(contents.registrations()).between(FOLLOW_UP, BASELINE));
  }

  @Test
  void aCutFileDoesNotKeepOthersFromBeingRead() throws Exception {
    TwoVisits.in(folder).onImages(false, false).write();
    byte[] whole = Files.readAllBytes(registration("r1", "2"));
    Files.write(folder.resolve("r0"), Arrays.copyOf(whole, whole.length - 40));

    FolderContents contents = read();

    assertEquals(1, contents.registrations().size());
    assertEquals(2, contents.scans().size());
    assertEquals(
        List.of(FindingKind.TRUNCATED), contents.findings().stream().map(Finding::kind).toList());
  }

  private Path registration(String name, String x) {
    return new RegistrationBuilder()
        .frame(TwoVisits.BASELINE_FRAME, identity())
        .frame(
            TwoVisits.FOLLOW_UP_FRAME,
            matrix("RIGID", "1\\0\\0\\" + x + "\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1"))
        .write(folder.resolve(name));
  }

  private void assertIgnored(String why) {
    FolderContents contents = read();
    assertEquals(List.of(), contents.registrations());
    assertEquals(2, contents.scans().size(), "the scans are there all the same");
    List<Finding> ours =
        contents.findings().stream()
            .filter(finding -> finding.kind() == FindingKind.REGISTRATION_IGNORED)
            .toList();
    assertEquals(1, ours.size(), contents.findings().toString());
    assertEquals(folder.resolve("r").toString(), ours.get(0).subject());
    assertTrue(ours.get(0).detail().contains(why), ours.get(0).detail());
  }

  private StatedRegistrations stated() {
    FolderContents contents = read();
    assertEquals(List.of(), contents.findings());
    return StatedRegistrations.of(contents.registrations());
  }

  private FolderContents read() {
    return DicomFolder.reader().read(List.of(folder));
  }

  private static FundusFrame image(String uid) {
    return new FundusFrame(FundusFrame.Kind.REFERENCE_IMAGE, uid);
  }

  private static FundusFrame patient(String uid) {
    return new FundusFrame(FundusFrame.Kind.PATIENT, uid);
  }
}
