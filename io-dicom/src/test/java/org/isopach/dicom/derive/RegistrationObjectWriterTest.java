package org.isopach.dicom.derive;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.StatedRegistrations;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.IodChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.check.PixelContent;
import org.isopach.dicom.check.Violation;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.derive.RegistrationWriteResult.Reason;
import org.isopach.dicom.derive.RegistrationWriteResult.Refused;
import org.isopach.dicom.derive.RegistrationWriteResult.Written;
import org.isopach.dicom.fixture.ToolRun;
import org.isopach.dicom.fixture.TwoVisits;
import org.isopach.dicom.write.DicomWriters;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class RegistrationObjectWriterTest {
  private static final FundusTransform FOUND =
      FundusTransform.of(1.0375, -7.25, new FundusPoint(3.1, 2.9), new FundusPoint(0.61, -0.37));
  private static final RegistrationProvenance HOW =
      new RegistrationProvenance("0.1", "vessel shadows");
  private static final double EXACT_MM = 1e-9;

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({"true, true", "true, false", "false, true", "false, false"})
  void comesBackAsItWasWritten(boolean baselineOnImage, boolean followUpOnImage) throws Exception {
    List<OctScan> scans = TwoVisits.in(folder).onImages(baselineOnImage, followUpOnImage).write();
    write(scans, FOUND, folder.resolve("r.dcm"));

    FolderContents contents = DicomFolder.reader().read(List.of(folder));

    assertEquals(List.of(), contents.findings());
    FundusTransform read =
        StatedRegistrations.of(contents.registrations())
            .between(frame(scans.get(1)), frame(scans.get(0)))
            .orElseThrow();
    for (double x : new double[] {-12, 0, 12}) {
      for (double y : new double[] {-12, 0, 12}) {
        FundusPoint point = new FundusPoint(x, y);
        assertEquals(0, FOUND.apply(point).distanceMm(read.apply(point)), EXACT_MM);
      }
    }
  }

  @ParameterizedTest
  @CsvSource({"true, true, 1.0375", "true, false, 1", "false, true, 1", "false, false, 1.0375"})
  void outsideProgramsAndOurCheckerFindNothingWrong(
      boolean baselineOnImage, boolean followUpOnImage, double scale) throws Exception {
    List<OctScan> scans = TwoVisits.in(folder).onImages(baselineOnImage, followUpOnImage).write();
    FundusTransform found =
        FundusTransform.of(scale, 4, new FundusPoint(1, 2), new FundusPoint(0.3, 0.2));
    Path file = write(scans, found, folder.resolve("r.dcm"));

    ToolRun judge = ToolRun.of("dciodvfy", file.toString());
    assertEquals(
        List.of(),
        KnownValidatorLimits.unexcused(RegistrationObject.SOP_CLASS_UID, judge.output()));
    assertTrue(judge.output().contains("SpatialRegistration"), judge.output());
    assertEquals(List.of(), FileChecker.standard().check(file).violations());
    ToolRun dump = ToolRun.of("dcmdump", file.toString());
    assertEquals(0, dump.exit(), dump.output());
    assertTrue(dump.output().contains("=SpatialRegistrationStorage"), dump.output());
    assertFalse(dump.output().contains("W:") || dump.output().contains("E:"), dump.output());
    assertEquals(0, ToolRun.of("gdcmdump", file.toString()).exit());
  }

  @Test
  void ourCheckerMissesWhatATableAsksFor() throws Exception {
    Dataset whole = build(TwoVisits.in(folder).write(), FOUND);
    Dataset empty =
        whole.toBuilder()
            .items(Tags.REGISTRATION_SEQUENCE, Dataset.builder().build())
            .remove(Tags.CONTENT_LABEL)
            .build();

    List<String> paths =
        IodChecker.standard().check(empty, PixelContent.none()).violations().stream()
            .map(Violation::path)
            .toList();

    assertEquals(
        List.of("(0070,0080)", "(0070,0308)[1]/(0020,0052)", "(0070,0308)[1]/(0070,0309)"), paths);
  }

  @Test
  void theOutsideProgramSeesTheSameMatrix() throws Exception {
    List<OctScan> scans = TwoVisits.in(folder).onImages(false, false).write();
    FundusTransform quarter =
        FundusTransform.of(1, 90, new FundusPoint(0, 0), new FundusPoint(0.5, 0.25));
    Path file = write(scans, quarter, folder.resolve("r.dcm"));

    List<String> lines =
        ToolRun.of("dcmdump", "+L", "+P", "3006,00c6", file.toString()).output().lines().toList();

    assertEquals(2, lines.size());
    assertTrue(lines.get(0).contains("[1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1\\0\\0\\0\\0\\1]"));
    String[] numbers = lines.get(1).replaceFirst(".*\\[", "").split("[\\\\\\]]", 17);
    double[] expected = {0, 0, 1, 0.5, 0, 1, 0, 0, -1, 0, 0, -0.25, 0, 0, 0, 1};
    for (int i = 0; i < 16; i++) {
      assertEquals(expected[i], Double.parseDouble(numbers[i]), 1e-15, lines.get(1));
    }
  }

  @Test
  void namesSystemsAndSources() throws Exception {
    List<OctScan> scans = TwoVisits.in(folder).write();
    Dataset object = build(scans, FOUND);

    List<Dataset> items = object.items(Tags.REGISTRATION_SEQUENCE);
    assertEquals(TwoVisits.BASELINE_IMAGE, image(items.get(0)));
    assertEquals(TwoVisits.FOLLOW_UP_IMAGE, image(items.get(1)));
    assertFalse(items.get(0).has(Tags.FRAME_OF_REFERENCE_UID));
    assertEquals(
        Optional.of("RIGID_SCALE"),
        matrix(items.get(1)).text(Tags.FRAME_OF_REFERENCE_TRANSFORMATION_MATRIX_TYPE));
    assertEquals(
        Optional.of("RIGID"),
        matrix(items.get(0)).text(Tags.FRAME_OF_REFERENCE_TRANSFORMATION_MATRIX_TYPE));
    assertEquals(Optional.of("2.25.21"), object.text(Tags.STUDY_INSTANCE_UID));
    assertEquals(Optional.of("R"), object.text(Tags.LATERALITY));
    assertEquals(Optional.of("20250411"), object.text(Tags.CONTENT_DATE));
    assertEquals(
        List.of("2.25.22", "2.25.24"), series(object), "follow-up's scan and fundus image");
    Dataset other =
        object.items(Tags.STUDIES_CONTAINING_OTHER_REFERENCED_INSTANCES_SEQUENCE).get(0);
    assertEquals(Optional.of("2.25.11"), other.text(Tags.STUDY_INSTANCE_UID));
    assertEquals(List.of("2.25.12", "2.25.14"), series(other));
    assertTrue(object.text(Tags.CONTENT_DESCRIPTION).orElseThrow().contains("Not a diagnosis"));
  }

  @Test
  void registersToTheFrameOfReferenceOfTheBaseline() throws Exception {
    Dataset object = build(TwoVisits.in(folder).onImages(false, false).write(), FOUND);

    assertEquals(Optional.of(TwoVisits.BASELINE_FRAME), object.text(Tags.FRAME_OF_REFERENCE_UID));
    assertEquals(
        Optional.of(TwoVisits.FOLLOW_UP_FRAME),
        object.items(Tags.REGISTRATION_SEQUENCE).get(1).text(Tags.FRAME_OF_REFERENCE_UID));
  }

  @Test
  void sameInputGivesTheSameBytesAndOtherInputAnotherUid() throws Exception {
    List<OctScan> scans = TwoVisits.in(folder).write();
    Path one = write(scans, FOUND, folder.resolve("one.dcm"));
    Path two = write(scans, FOUND, folder.resolve("two.dcm"));
    Dataset moved = build(scans, FOUND.then(FundusTransform.translation(new FundusPoint(0, 1))));
    Dataset first = build(scans, FOUND);

    assertArrayEquals(Files.readAllBytes(one), Files.readAllBytes(two));
    assertNotEquals(first.text(Tags.SOP_INSTANCE_UID), moved.text(Tags.SOP_INSTANCE_UID));
    assertEquals(
        first.text(Tags.FRAME_OF_REFERENCE_UID),
        moved.text(Tags.FRAME_OF_REFERENCE_UID),
        "one image, one system");
  }

  @Test
  void refusesTwoScansInOneSystem() throws Exception {
    List<OctScan> scans =
        TwoVisits.in(folder)
            .onImages(false, false)
            .followUp(b -> b.text(Tags.FRAME_OF_REFERENCE_UID, Vr.UI, TwoVisits.BASELINE_FRAME))
            .write();

    assertEquals(Reason.SAME_FRAME, refusal(scans, FOUND));
  }

  @Test
  void refusesASystemWithoutAName() throws Exception {
    List<OctScan> scans =
        TwoVisits.in(folder)
            .onImages(false, false)
            .followUp(b -> b.remove(Tags.FRAME_OF_REFERENCE_UID))
            .write();

    assertEquals(Reason.FRAME_WITHOUT_NAME, refusal(scans, FOUND));
  }

  @Test
  void refusesAnImageThatIsMissingOrHasNoScale() throws Exception {
    assertEquals(
        Reason.IMAGE_UNKNOWN, refusal(TwoVisits.in(folder).withoutImages().write(), FOUND));
    assertEquals(
        Reason.IMAGE_UNKNOWN,
        refusal(TwoVisits.in(folder).image(b -> b.remove(Tags.PIXEL_SPACING)).write(), FOUND));
    assertEquals(
        Reason.IMAGE_UNKNOWN,
        refusal(
            TwoVisits.in(folder).image(b -> b.remove(Tags.SERIES_INSTANCE_UID)).write(), FOUND));
  }

  @ParameterizedTest
  @ValueSource(strings = {"patient", "nobody", "eye"})
  void refusesWhatIsNotOneEye(String what) throws Exception {
    List<OctScan> scans =
        TwoVisits.in(folder)
            .followUp(
                b -> {
                  switch (what) {
                    case "patient" -> b.text(Tags.PATIENT_ID, Vr.LO, "SANDPIPER-08");
                    case "nobody" -> b.remove(Tags.PATIENT_ID);
                    default -> b.text(Tags.IMAGE_LATERALITY, Vr.CS, "L");
                  }
                })
            .write();

    assertEquals(Reason.NOT_ONE_EYE, refusal(scans, FOUND));
  }

  @Test
  void refusesWhatLacksAValueOrIsNotBelieved() throws Exception {
    List<OctScan> undated =
        TwoVisits.in(folder)
            .followUp(b -> b.remove(Tags.ACQUISITION_DATETIME).remove(Tags.STUDY_DATE))
            .write();
    assertEquals(Reason.SOURCE_INCOMPLETE, refusal(undated, FOUND));

    List<OctScan> scans = TwoVisits.in(folder).write();
    FundusPoint origin = new FundusPoint(0, 0);
    assertEquals(Reason.OUT_OF_RANGE, refusal(scans, FundusTransform.of(2.5, 0, origin, origin)));
  }

  private Path write(List<OctScan> scans, FundusTransform found, Path target) throws Exception {
    assertInstanceOf(
        Written.class, DicomWriters.registrations().write(pair(scans, found), HOW, target));
    return target;
  }

  private Dataset build(List<OctScan> scans, FundusTransform found) throws Exception {
    Dataset[] built = new Dataset[1];
    new RegistrationObjectWriter(
            DicomFolder.headers(), (path, dataset, pixels) -> built[0] = dataset)
        .write(pair(scans, found), HOW, Path.of("unused"));
    return built[0];
  }

  private Reason refusal(List<OctScan> scans, FundusTransform found) throws Exception {
    Path target = folder.resolve("refused.dcm");
    Refused refused =
        assertInstanceOf(
            Refused.class, DicomWriters.registrations().write(pair(scans, found), HOW, target));
    assertFalse(refused.detail().isBlank());
    assertFalse(Files.exists(target));
    return refused.reason();
  }

  /** By name, since patient and eye of a changed follow-up move it in the folder's order. */
  private static VisitRegistration pair(List<OctScan> scans, FundusTransform found) {
    boolean inOrder = scans.get(0).identity().sopUid().equals("2.25.1001");
    return new VisitRegistration(scans.get(inOrder ? 0 : 1), scans.get(inOrder ? 1 : 0), found);
  }

  private static FundusFrame frame(OctScan scan) {
    return scan.path().orElseThrow().frame();
  }

  private static String image(Dataset item) {
    return item.items(Tags.REFERENCED_IMAGE_SEQUENCE)
        .get(0)
        .text(Tags.REFERENCED_SOP_INSTANCE_UID)
        .orElseThrow();
  }

  private static Dataset matrix(Dataset item) {
    return item.items(Tags.MATRIX_REGISTRATION_SEQUENCE).get(0).items(Tags.MATRIX_SEQUENCE).get(0);
  }

  private static List<String> series(Dataset holder) {
    return holder.items(Tags.REFERENCED_SERIES_SEQUENCE).stream()
        .map(item -> item.text(Tags.SERIES_INSTANCE_UID).orElseThrow())
        .toList();
  }
}
