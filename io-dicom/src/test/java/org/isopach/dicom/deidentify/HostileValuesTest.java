package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.OutsideTool;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Values that stand where no text is expected, or that look like the standard's own. */
class HostileValuesTest {
  private static final Options OPTIONS = new Options(true, false, false);

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(
      strings = {
        "1.2.840.10008./../../../../esc",
        "1.2.840.10008.5/../../esc",
        "../../esc",
        "/esc",
        "1.2.840.10008.5.1.4.1.1.77.1.5.4 x"
      })
  void noUidLeadsOutOfTheFolder(String uid) throws Exception {
    Path in = Files.createDirectories(folder.resolve("a/b/c/d/in"));
    Path out = in.resolveSibling("out");
    new TomographyBuilder()
        .with(b -> b.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid))
        .write(in.resolve("hostile"));
    new TomographyBuilder().write(in.resolve("usual"));
    List<Path> before = files(folder);

    List<Outcome> outcomes = run(in, out);

    assertEquals(
        "its SOP Instance UID has not the form of a UID (PS3.5, 9.1)", outcomes.get(0).refused());
    assertTrue(outcomes.get(1).written().isPresent(), "the others are copied");
    assertEquals(before, files(folder).stream().filter(file -> !file.startsWith(out)).toList());
  }

  /** Of PS3.6, table A-1, the SOP class and the coding scheme are; the rest begins like them. */
  @Test
  void onlyRegisteredUidsAreTheStandardsOwn() throws Exception {
    String invented = "1.2.840.10008.19500102.4711";
    String tomography = "1.2.840.10008.5.1.4.1.1.77.1.5.4";
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.text(Tags.SOP_INSTANCE_UID, Vr.UI, invented + ".1")
                    .text(Tags.STUDY_INSTANCE_UID, Vr.UI, invented)
                    .text(Tags.SERIES_INSTANCE_UID, Vr.UI, tomography)
                    .text(0x0008_010C, Vr.UI, "1.2.840.10008.2.16.4")
                    .text(0x0008_0117, Vr.UI, invented + ".2")
                    .text(Tags.MANUFACTURER, Vr.LO, "by " + invented))
        .write(in.resolve("a"));

    Outcome one = run(in, folder.resolve("out")).get(0);

    Path copy = folder.resolve("out").resolve(one.written().orElseThrow());
    assertFalse(copy.toString().contains("19500102"));
    assertFalse(Files.readString(copy, StandardCharsets.ISO_8859_1).contains("19500102"));
    Dataset data = attributes(copy);
    assertEquals(tomography, data.text(Tags.SOP_CLASS_UID).orElseThrow());
    assertEquals("1.2.840.10008.2.16.4", data.text(0x0008_010C).orElseThrow());
    assertNotEquals(tomography, data.text(Tags.SERIES_INSTANCE_UID).orElseThrow());
  }

  /** The forms are those of PS3.5, table 6.2-1; none of these values has its own. */
  @Test
  void textIsNotKeptWhereNoneIsExpected() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.text(0x0010_0010, Vr.PN, "ROE^JANE^LEE")
                    .text(0x0010_0020, Vr.LO, "441190")
                    .text(0x0008_0030, Vr.TM, "ROE^JANE")
                    .text(0x0008_0033, Vr.TM, "101500.441190")
                    .text(0x0008_0201, Vr.SH, "ROE")
                    .text(0x0018_0050, Vr.DS, "JANE ROE")
                    .text(0x0018_1060, Vr.DS, "Roe, Jane")
                    .text(0x0020_0012, Vr.IS, "JANE 7")
                    .text(0x0020_0020, Vr.CS, "JANEROE", "roe")
                    .text(0x0008_002A, Vr.DT, "20250314ROE")
                    .items(
                        0x0040_A170,
                        new Code("121311", "DCM", "Localizer")
                            .toItem().toBuilder()
                                .text(0x0008_0106, Vr.DT, "Jane Roe")
                                .text(0x0008_0107, Vr.DT, "20020904")
                                .build()))
        .write(in.resolve("a"));

    Path copy =
        folder
            .resolve("out")
            .resolve(run(in, folder.resolve("out")).get(0).written().orElseThrow());

    String bytes = Files.readString(copy, StandardCharsets.ISO_8859_1).toLowerCase(Locale.ROOT);
    for (String secret : List.of("jane", "roe", "441190")) {
      assertFalse(bytes.contains(secret), secret);
    }
    Dataset data = attributes(copy);
    assertEquals(List.of("000000"), data.texts(0x0008_0030));
    assertFalse(data.has(0x0008_0201));
    assertTrue(data.has(0x0018_0050));
    assertEquals(List.of(), data.texts(0x0018_0050), "no length is made up");
    assertEquals(List.of("REMOVED", "REMOVED"), data.texts(0x0020_0020));
    Dataset code = data.items(0x0040_A170).get(0);
    assertEquals(List.of("19000101000000"), code.texts(0x0008_0106));
    assertEquals(List.of("20020904"), code.texts(0x0008_0107));
  }

  /** Values in the standard's forms, older ones too, are no text. */
  @Test
  void valuesOfTheRightFormStay() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.text(0x0008_0030, Vr.TM, "101560.123456")
                    .text(0x0008_0033, Vr.TM, "10:15:00")
                    .text(0x0008_0201, Vr.SH, "+0130")
                    .text(0x0018_0050, Vr.DS, "-1.5e-3")
                    .text(0x0020_0012, Vr.IS, "+7")
                    .text(0x0020_0020, Vr.CS, "L", "F"))
        .write(in.resolve("a"));

    Path copy =
        folder
            .resolve("out")
            .resolve(run(in, folder.resolve("out")).get(0).written().orElseThrow());

    Dataset data = attributes(copy);
    assertEquals(List.of("101560.123456"), data.texts(0x0008_0030));
    assertEquals(List.of("10:15:00"), data.texts(0x0008_0033));
    assertEquals(List.of("+0130"), data.texts(0x0008_0201));
    assertEquals(List.of("-1.5e-3"), data.texts(0x0018_0050));
    assertEquals(List.of("+7"), data.texts(0x0020_0012));
    assertEquals(List.of("L", "F"), data.texts(0x0020_0020));
  }

  /** An item with a picture, as an icon is; nobody has judged what it shows. */
  @Test
  void pixelsInItemsAreTakenOut() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.items(
                    0x0008_2112,
                    Dataset.builder()
                        .bytes(0x7FE0_0008, Vr.OF, new byte[8])
                        .bytes(0x7FE0_0009, Vr.OD, new byte[8])
                        .bytes(0x7FE0_0010, Vr.OW, new byte[8])
                        .build()))
        .write(in.resolve("a"));

    Path copy = copied(in);

    Dataset item = attributes(copy).items(0x0008_2112).get(0);
    assertTrue(item.elements().stream().allMatch(one -> one.tag() >>> 16 != 0x7FE0));
    assertTrue(ParsedObject.of(copy, new PixelMedObjectReader()).pixels().isPresent());
  }

  /** 81745001 is of SNOMED CT; a study may be number 8174. */
  @Test
  void aShortNumberTakesNoCodeAway() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.text(0x0020_0010, Vr.SH, "8174")
                    .text(0x0010_0020, Vr.LO, "TSEU4411903")
                    .items(
                        0x0040_A170,
                        new Code("81745001", "SCT", "Eye").toItem(),
                        new Code("X-8174", "99INVENTED", "Eye").toItem(),
                        new Code("ATSEU4411903", "99INVENTED", "Eye").toItem()))
        .write(in.resolve("a"));

    List<Dataset> codes = attributes(copied(in)).items(0x0040_A170);

    assertEquals(
        List.of("81745001", "REMOVED", "REMOVED"),
        codes.stream().map(code -> code.text(0x0008_0100).orElseThrow()).toList());
  }

  /** Two bytes of each word change places (PS3.5, 7.3). */
  @Test
  void textInTurnedWordsIsFound() throws Exception {
    TomographyBuilder made =
        new TomographyBuilder()
            .size(1, 37, 21)
            .pixels(16, 12, false)
            .with(b -> b.text(0x0010_0010, Vr.PN, "Oystercatcher^Bo"));
    Path plain = made.write(folder.resolve("plain"));
    Path in = Files.createDirectories(folder.resolve("in"));
    OutsideTool.run(List.of("dcmconv", "+tb", plain.toString(), in.resolve("a").toString()));
    assertTrue(run(in, folder.resolve("first")).get(0).written().isPresent());
    byte[] bytes = Files.readAllBytes(in.resolve("a"));
    byte[] swapped = "yOtsreaccteh^r".getBytes(StandardCharsets.US_ASCII);
    int even = bytes.length - 64 - bytes.length % 2;
    System.arraycopy(swapped, 0, bytes, even, swapped.length);
    Files.write(in.resolve("a"), bytes);

    Outcome outcome = run(in, folder.resolve("out")).get(0);

    assertEquals("the pixel data hold an identifier as text", outcome.refused());
    try (Stream<Path> left = Files.list(folder.resolve("out"))) {
      assertTrue(left.allMatch(Files::isRegularFile), "no folder is left of a refused object");
    }
  }

  /** The file goes between the look at it and the copy. */
  @Test
  void aSourceThatCannotBeReadIsRefusedAlone() throws Exception {
    Path file = new TomographyBuilder().write(folder.resolve("a"));
    ParsedObject object = ParsedObject.of(file, new PixelMedObjectReader());
    KnownTexts known = KnownTexts.of(object.attributes(), ActionTable.load(), OPTIONS);
    Files.delete(file);

    Refusal refusal =
        assertThrows(
            Refusal.class, () -> PixelStream.copy(object, known, OutputStream.nullOutputStream()));

    assertEquals("it cannot be read", refusal.getMessage());
  }

  private Path copied(Path in) throws Exception {
    Path out = folder.resolve("out");
    return out.resolve(run(in, out).get(0).written().orElseThrow());
  }

  private static Dataset attributes(Path file) throws Exception {
    return ParsedObject.of(file, new PixelMedObjectReader()).attributes();
  }

  private static List<Outcome> run(Path in, Path out) throws Exception {
    byte[] key = "an invented key of the test".getBytes(StandardCharsets.US_ASCII);
    return Deidentifiers.of(new Pseudonyms(key))
        .run(List.of(in), OutFolder.open(out, OPTIONS, new Pseudonyms(key)));
  }

  private static List<Path> files(Path root) throws Exception {
    try (Stream<Path> files = Files.walk(root)) {
      return files.filter(Files::isRegularFile).sorted().toList();
    }
  }
}
