package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.FolderContents;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.LocalizerBuilder;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** One object per oddity: what is odd, the one finding it must give, and whether a scan is left. */
class OddObjectTest {
  private static final boolean SCAN = true;
  private static final boolean NONE = false;

  @TempDir Path folder;

  static Stream<Arguments> oddities() {
    return Stream.of(
            frames(),
            depthSpacing(),
            pixels(),
            laterality(),
            dates(),
            Stream.of(
                odd(
                    "the region imaged is the cornea",
                    b ->
                        b.items(
                            Tags.ANATOMIC_REGION_SEQUENCE,
                            Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "28726007").build()),
                    FindingKind.NOT_RETINAL_SECTION,
                    "cornea",
                    NONE),
                odd(
                    "the region imaged is the lens",
                    b ->
                        b.items(
                            Tags.ANATOMIC_REGION_SEQUENCE,
                            Dataset.builder().text(Tags.CODE_VALUE, Vr.SH, "78076003").build()),
                    FindingKind.NOT_RETINAL_SECTION,
                    "lens",
                    NONE),
                odd(
                    "the axial length of the eye is 0",
                    b -> b.numbers(Tags.AXIAL_LENGTH_OF_THE_EYE, Vr.FL, 0),
                    FindingKind.ATTRIBUTE_IGNORED,
                    "(0022,0030) is [0.0]",
                    SCAN),
                odd(
                    "the axial length of the eye is not a number",
                    b -> b.numbers(Tags.AXIAL_LENGTH_OF_THE_EYE, Vr.FL, Double.NaN),
                    FindingKind.ATTRIBUTE_IGNORED,
                    "(0022,0030) is [NaN]",
                    SCAN)))
        .flatMap(s -> s);
  }

  private static Stream<Arguments> frames() {
    return Stream.of(
        odd(
            "Number of Frames is missing",
            b -> b.remove(Tags.NUMBER_OF_FRAMES),
            FindingKind.NO_FRAMES,
            "is missing",
            NONE),
        odd(
            "Number of Frames is empty",
            b -> b.text(Tags.NUMBER_OF_FRAMES, Vr.IS),
            FindingKind.NO_FRAMES,
            "is empty",
            NONE),
        odd(
            "Number of Frames is no number",
            b -> b.text(Tags.NUMBER_OF_FRAMES, Vr.IS, "abc"),
            FindingKind.MALFORMED_ATTRIBUTE,
            "is \"abc\"",
            NONE),
        odd(
            "Number of Frames is 0",
            b -> b.text(Tags.NUMBER_OF_FRAMES, Vr.IS, "0"),
            FindingKind.NO_FRAMES,
            "is [0.0]",
            NONE),
        odd(
            "fewer frames than items in the per-frame sequence",
            b -> b.text(Tags.NUMBER_OF_FRAMES, Vr.IS, "2"),
            FindingKind.NO_FRAMES,
            "has 3 items",
            NONE),
        odd(
            "no per-frame sequence: the frames' places are unknown",
            b -> b.remove(Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE),
            FindingKind.NO_PLACEMENT,
            "Ophthalmic Frame Location is missing",
            SCAN));
  }

  private static Stream<Arguments> depthSpacing() {
    return Stream.of(
        spacing("no Pixel Measures", FindingKind.NO_AXIAL_SPACING, "is missing", (String[]) null),
        spacing("empty Pixel Spacing", FindingKind.NO_AXIAL_SPACING, "is empty", new String[] {}),
        spacing(
            "depth spacing is no number", FindingKind.MALFORMED_ATTRIBUTE, "abc", "abc", "0.02"),
        spacing(
            "along-scan spacing is no number",
            FindingKind.MALFORMED_ATTRIBUTE,
            "1,5",
            "0.004",
            "1,5"),
        spacing("depth spacing says NaN", FindingKind.MALFORMED_ATTRIBUTE, "NaN", "NaN", "0.02"),
        spacing("one spacing of two", FindingKind.MALFORMED_ATTRIBUTE, "[0.004]", "0.004"),
        spacing("depth spacing 0", FindingKind.NO_AXIAL_SPACING, "[0.0, ", "0", "0.02"),
        spacing("negative depth spacing", FindingKind.NO_AXIAL_SPACING, "-0.004", "-0.004", "1"),
        spacing("depth spacing in um, not mm", FindingKind.NO_AXIAL_SPACING, "deeper", "10", "1"),
        Arguments.of(
            "depth spacing differs between frames",
            new TomographyBuilder()
                .withFrames(
                    (f, groups) ->
                        groups.items(
                            Tags.PIXEL_MEASURES_SEQUENCE,
                            TomographyBuilder.spacing(f == 2 ? "0.005" : "0.004", "0.02"))),
            FindingKind.NO_AXIAL_SPACING,
            "differs between frames",
            NONE));
  }

  private static Stream<Arguments> pixels() {
    return Stream.of(
        odd(
            "more frames than pixel data",
            b -> {
              b.text(Tags.NUMBER_OF_FRAMES, Vr.IS, "4");
              b.items(
                  Tags.PER_FRAME_FUNCTIONAL_GROUPS_SEQUENCE,
                  List.of(empty(), empty(), empty(), empty()));
            },
            FindingKind.PIXEL_DATA_SHORT,
            "need 140 bytes of Pixel Data, it has 106",
            NONE),
        odd(
            "colour pixels",
            b ->
                b.numbers(Tags.SAMPLES_PER_PIXEL, Vr.US, 3)
                    .text(Tags.PHOTOMETRIC_INTERPRETATION, Vr.CS, "RGB"),
            FindingKind.UNSUPPORTED_ENCODING,
            "\"RGB\" of 3 samples",
            NONE),
        odd(
            "32 bits allocated",
            b -> b.numbers(Tags.BITS_ALLOCATED, Vr.US, 32),
            FindingKind.UNSUPPORTED_ENCODING,
            "Bits Allocated is 32",
            NONE),
        odd(
            "more bits stored than allocated",
            b -> b.numbers(Tags.BITS_STORED, Vr.US, 12),
            FindingKind.MALFORMED_ATTRIBUTE,
            "impossible bits 8, 12, 7",
            NONE),
        odd(
            "no rows",
            b -> b.numbers(Tags.ROWS, Vr.US, 0),
            FindingKind.MALFORMED_ATTRIBUTE,
            "impossible extent 0 x 7",
            NONE),
        odd(
            "Columns is missing",
            b -> b.remove(Tags.COLUMNS),
            FindingKind.MALFORMED_ATTRIBUTE,
            "Columns (0028,0011) is missing",
            NONE));
  }

  private static Stream<Arguments> laterality() {
    return Stream.of(
        odd(
            "frames and image name different eyes",
            b -> b.text(Tags.IMAGE_LATERALITY, Vr.CS, "L"),
            FindingKind.LATERALITY_CONTRADICTION,
            "Frame Laterality of frame 1 is \"R\", Image Laterality is \"L\"",
            SCAN),
        odd(
            "image and series name different eyes",
            b -> b.text(Tags.LATERALITY, Vr.CS, "L"),
            FindingKind.LATERALITY_CONTRADICTION,
            "Laterality is \"L\"",
            SCAN),
        Arguments.of(
            "one frame names the other eye",
            new TomographyBuilder().withFrames((f, groups) -> eye(groups, f == 1 ? "L" : "R")),
            FindingKind.LATERALITY_CONTRADICTION,
            "Frame Laterality of frame 2 is \"L\"",
            SCAN),
        Arguments.of(
            "both eyes in one image",
            new TomographyBuilder()
                .withFrames((f, groups) -> eye(groups, "B"))
                .with(b -> b.text(Tags.IMAGE_LATERALITY, Vr.CS, "B")),
            FindingKind.NO_LATERALITY,
            "\"B\", which is not one eye",
            SCAN),
        Arguments.of(
            "no laterality anywhere",
            new TomographyBuilder()
                .withFrames((f, groups) -> groups.items(Tags.FRAME_ANATOMY_SEQUENCE))
                .with(b -> b.text(Tags.IMAGE_LATERALITY, Vr.CS)),
            FindingKind.NO_LATERALITY,
            "neither",
            SCAN));
  }

  private static Stream<Arguments> dates() {
    return Stream.of(
        odd(
            "no date at all",
            b -> b.remove(Tags.ACQUISITION_DATETIME).remove(Tags.STUDY_DATE),
            FindingKind.DATE_UNKNOWN,
            "no date is stated",
            SCAN),
        odd(
            "a month 13 in the only date",
            b -> b.text(Tags.ACQUISITION_DATETIME, Vr.DT, "20251301").remove(Tags.STUDY_DATE),
            FindingKind.DATE_UNKNOWN,
            "(0008,002A) \"20251301\"",
            SCAN),
        odd(
            "a date of acquisition that is only a year",
            b -> b.text(Tags.ACQUISITION_DATETIME, Vr.DT, "2025"),
            FindingKind.ATTRIBUTE_IGNORED,
            "(0008,002A) \"2025\"",
            SCAN));
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("oddities")
  void oneFinding(
      String oddity, TomographyBuilder builder, FindingKind kind, String detail, boolean scan) {
    builder.write(folder.resolve("odd"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    assertEquals(1, contents.findings().size(), contents.findings().toString());
    Finding finding = contents.findings().get(0);
    assertEquals(kind, finding.kind());
    assertTrue(finding.detail().contains(detail), finding.detail());
    assertEquals(folder.resolve("odd").toString(), finding.subject());
    assertEquals(scan ? 1 : 0, contents.scans().size());
  }

  @Test
  void missingPatientIsEmptyNotAFinding() {
    new TomographyBuilder().with(b -> b.remove(Tags.PATIENT_ID)).write(folder.resolve("odd"));
    new LocalizerBuilder().write(folder.resolve("fundus"));
    FolderContents contents = DicomFolder.reader().read(List.of(folder));
    assertEquals(List.of(), contents.findings());
    assertEquals("", contents.scans().get(0).identity().patientId());
  }

  private static Arguments odd(
      String oddity,
      Consumer<Dataset.Builder> change,
      FindingKind kind,
      String detail,
      boolean scan) {
    return Arguments.of(oddity, new TomographyBuilder().with(change), kind, detail, scan);
  }

  private static Arguments spacing(
      String oddity, FindingKind kind, String detail, String... values) {
    TomographyBuilder builder =
        new TomographyBuilder()
            .withFrames(
                (f, groups) -> {
                  if (values == null) {
                    groups.items(Tags.PIXEL_MEASURES_SEQUENCE);
                  } else {
                    groups.items(Tags.PIXEL_MEASURES_SEQUENCE, TomographyBuilder.spacing(values));
                  }
                });
    return Arguments.of(oddity, builder, kind, detail, NONE);
  }

  private static void eye(Dataset.Builder groups, String code) {
    groups.items(
        Tags.FRAME_ANATOMY_SEQUENCE,
        Dataset.builder().text(Tags.FRAME_LATERALITY, Vr.CS, code).build());
  }

  private static Dataset empty() {
    return Dataset.builder().build();
  }
}
