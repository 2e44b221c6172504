package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.dicom.data.Code;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What PS3.15 annex E asks, on invented objects with identifiers wherever text can stand. */
class FolderDeidentifierTest {
  private static final List<String> SECRETS =
      List.of(
          "Tideline",
          "Pipit",
          "SECRETID77",
          "Tern Sound Eye Unit",
          "ACC-998877",
          "Dr Dunlin",
          "19570412",
          "20250314",
          "2.25.1001",
          "2.25.11",
          "2.25.12",
          "2.25.13",
          "SER-4711",
          "Harbour Lane",
          "hidden note",
          "OPERATORX");

  @TempDir Path folder;

  @Test
  void noIdentifierIsLeftAnywhereAndPixelsStay() throws Exception {
    TomographyBuilder made = stuffed("2.25.1001", "20250314");
    Path in = folder.resolve("in");
    Files.createDirectories(in);
    Path source = made.write(in.resolve("Tideline_SECRETID77.dcm"));
    String before = bytewise(source);
    SECRETS.forEach(secret -> assertTrue(before.contains(secret), secret + " is in the source"));

    List<Outcome> outcomes = run(in, folder.resolve("out"), new Options(true, false, false));

    assertEquals(before, bytewise(source), "the source stays");
    assertEquals(1, Outcome.written(outcomes), outcomes.toString());
    for (Path file : files(folder.resolve("out"))) {
      String after = bytewise(file) + file;
      for (String secret : SECRETS) {
        boolean inPath = folder.toString().contains(secret);
        assertTrue(inPath || !after.contains(secret), secret + " is left in " + file);
      }
    }
    ParsedObject object = parsed(outcomes.get(0));
    byte[] pixels =
        object
            .source()
            .read(
                object.pixels().orElseThrow().offset(),
                (int) object.pixels().orElseThrow().length());
    assertArrayEquals(made.pixelBytes(), pixels);
    Dataset data = object.attributes();
    assertEquals("YES", data.text(0x00120062).orElseThrow());
    assertEquals("MODIFIED", data.text(0x00280303).orElseThrow());
    assertEquals(
        List.of("113100", "113107"),
        data.items(0x00120064).stream().map(item -> item.text(0x00080100).orElseThrow()).toList());
  }

  @Test
  void referencesAndOrderOfVisitsStay() throws Exception {
    Path in = folder.resolve("in");
    Files.createDirectories(in);
    stuffed("2.25.1001", "20250314").write(in.resolve("a"));
    stuffed("2.25.2001", "20250403").write(in.resolve("b"));

    List<Outcome> outcomes = run(in, folder.resolve("out"), new Options(true, false, false));

    Dataset first = parsed(outcomes.get(0)).attributes();
    Dataset second = parsed(outcomes.get(1)).attributes();
    assertEquals(first.text(0x00100020), second.text(0x00100020));
    String referenced = second.items(0x00081140).get(0).text(0x00081155).orElseThrow();
    assertEquals(first.text(Tags.SOP_INSTANCE_UID).orElseThrow(), referenced);
    long days = ChronoUnit.DAYS.between(day(first), day(second));
    assertEquals(20, days, "14 March to 3 April");
    assertNotEquals("20250314", first.text(Tags.STUDY_DATE).orElseThrow());
  }

  @Test
  void whatCannotBeHandledIsRefusedAndNeverCopied() throws Exception {
    Path in = folder.resolve("in");
    Files.createDirectories(in);
    Files.writeString(in.resolve("a.txt"), "Tideline");
    new TomographyBuilder()
        .with(b -> b.text(Tags.BURNED_IN_ANNOTATION, Vr.CS, "YES"))
        .write(in.resolve("b"));
    new TomographyBuilder()
        .with(b -> b.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.7"))
        .write(in.resolve("c"));

    List<Outcome> outcomes = run(in, folder.resolve("out"), new Options(true, false, false));

    assertEquals(0, Outcome.written(outcomes));
    assertTrue(outcomes.get(0).skipped());
    assertTrue(outcomes.get(1).refused().contains("burned into the pixels"));
    assertTrue(outcomes.get(2).refused().contains("class"));
    assertFalse(files(folder.resolve("out")).stream().anyMatch(f -> f.toString().endsWith(".dcm")));
  }

  /** Of the classes the names are those of PS3.6, table A-1. */
  @Test
  void documentsAreRefusedByName() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    for (String kind : List.of("104.1", "88.33", "88.11", "79.1", "77.1.5.7", "30")) {
      TomographyBuilder made = new TomographyBuilder();
      made.with(
              b ->
                  b.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1." + kind)
                      .text(Tags.SOP_INSTANCE_UID, Vr.UI, "2.25." + kind.replace(".", "")))
          .write(in.resolve(kind));
    }

    List<Outcome> outcomes = run(in, folder.resolve("out"), new Options(true, false, false));

    assertEquals(0, Outcome.written(outcomes));
    assertRefused(outcomes, "104.1", "Encapsulated PDF Storage: documents cannot be cleaned");
    assertRefused(outcomes, "88.33", "Comprehensive SR Storage: of structured reports only");
    assertRefused(outcomes, "88.11", "Basic Text SR");
    assertRefused(outcomes, "79.1", "the object has pixel data that its class does not know");
    assertRefused(outcomes, "77.1.5.7", "the object does not say that no text is burned into it");
    assertRefused(outcomes, "30", "the object does not say that no text is burned into it");
  }

  private static void assertRefused(List<Outcome> outcomes, String name, String why) {
    Outcome one =
        outcomes.stream().filter(o -> o.source().endsWith(name)).findFirst().orElseThrow();
    assertTrue(one.refused().startsWith(why), one.refused());
  }

  /** An en face image that says NO, as its IOD has it, is copied. */
  @Test
  void anEnFaceImageThatSaysItHasNoTextIsCopied() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.text(Tags.SOP_CLASS_UID, Vr.UI, "1.2.840.10008.5.1.4.1.1.77.1.5.7")
                    .text(Tags.BURNED_IN_ANNOTATION, Vr.CS, "NO"))
        .write(in.resolve("a"));

    List<Outcome> outcomes = run(in, folder.resolve("out"), new Options(true, false, false));

    assertEquals(1, Outcome.written(outcomes), outcomes.toString());
  }

  /** A patient ID of digits may look like a length; lengths are never taken for it. */
  @Test
  void numbersAreNotTakenForNames() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder()
        .with(
            b ->
                b.text(0x00100020, Vr.LO, "0.004")
                    .text(0x00100010, Vr.PN, "Mono^Line")
                    .text(0x00200013, Vr.IS, "3")
                    .text(0x00200011, Vr.IS, "880417")
                    .text(0x00200010, Vr.SH, "880417"))
        .write(in.resolve("a"));

    List<Outcome> outcomes = run(in, folder.resolve("out"), new Options(true, false, false));

    Dataset copy = parsed(outcomes.get(0)).attributes();
    assertEquals("MONOCHROME2", copy.text(Tags.PHOTOMETRIC_INTERPRETATION).orElseThrow());
    assertEquals("0", copy.text(0x00200011).orElseThrow(), "a number that is an identifier");
    Dataset shared = copy.items(Tags.SHARED_FUNCTIONAL_GROUPS_SEQUENCE).get(0);
    assertEquals(
        List.of("0.004", "0.02"),
        shared.items(Tags.PIXEL_MEASURES_SEQUENCE).get(0).texts(Tags.PIXEL_SPACING));
  }

  private static LocalDate day(Dataset data) {
    return LocalDate.parse(
        data.text(Tags.STUDY_DATE).orElseThrow(), DateTimeFormatter.BASIC_ISO_DATE);
  }

  private List<Outcome> run(Path in, Path out, Options options) throws IOException {
    byte[] key = "an invented key of the test".getBytes(StandardCharsets.US_ASCII);
    FolderDeidentifier work = Deidentifiers.of(new Pseudonyms(key));
    OutFolder target = OutFolder.open(out, options, new Pseudonyms(key));
    List<Outcome> outcomes = work.run(List.of(in), target);
    ReportFiles.write(target, outcomes, work.tally());
    return outcomes;
  }

  private ParsedObject parsed(Outcome outcome) throws Exception {
    Path file = folder.resolve("out").resolve(outcome.written().orElseThrow());
    return ParsedObject.of(file, new PixelMedObjectReader());
  }

  private static TomographyBuilder stuffed(String uid, String date) {
    return new TomographyBuilder()
        .size(3, 61, 53)
        .with(
            b ->
                b.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid)
                    .text(Tags.STUDY_DATE, Vr.DA, date)
                    .text(0x00080050, Vr.SH, "ACC-998877")
                    .text(0x00080080, Vr.LO, "Tern Sound Eye Unit")
                    .text(0x00080090, Vr.PN, "Dr Dunlin")
                    .text(0x00081070, Vr.PN, "OPERATORX")
                    .text(0x00100010, Vr.PN, "Tideline^Pipit")
                    .text(0x00100020, Vr.LO, "SECRETID77")
                    .text(0x00100030, Vr.DA, "19570412")
                    .text(0x00101040, Vr.LO, "Harbour Lane")
                    .text(0x00181000, Vr.LO, "SER-4711")
                    .text(0x00204000, Vr.LT, "seen by Dr Dunlin for Tideline")
                    .text(0x00221616, Vr.LO, "eye of Pipit")
                    .text(0x00080070, Vr.LO, "maker, Tideline")
                    .text(0x00091001, Vr.LO, "hidden note of SECRETID77")
                    .items(
                        0x00081140,
                        Dataset.builder()
                            .text(0x00081150, Vr.UI, "1.2.840.10008.5.1.4.1.1.77.1.5.4")
                            .text(0x00081155, Vr.UI, "2.25.1001")
                            .text(0x00091002, Vr.LO, "hidden note")
                            .text(0x00204000, Vr.LT, "Harbour Lane 4")
                            .items(
                                0x0040A170,
                                new Code("121311", "DCM", "of Tideline, SECRETID77").toItem())
                            .build()));
  }

  private static String bytewise(Path file) throws IOException {
    return Files.readString(file, StandardCharsets.ISO_8859_1);
  }

  private static List<Path> files(Path root) throws IOException {
    try (Stream<Path> files = Files.walk(root)) {
      return files.filter(Files::isRegularFile).sorted().toList();
    }
  }
}
