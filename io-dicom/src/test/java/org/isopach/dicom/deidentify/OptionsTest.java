package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Options and their codes of PS3.16, CID 7050; keys; output folders that are not empty. */
class OptionsTest {
  private static final int SEX = 0x00100040;
  private static final int AGE = 0x00101010;
  private static final int SERIAL = 0x00181000;
  private static final int STATION = 0x00081010;
  private static final int METHOD_CODES = 0x00120064;
  private static final int MODIFIED = 0x00280303;

  private static final Pseudonyms KEY = key("an invented key of the test");

  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource({
    "true, false, false, 113100 113107",
    "false, false, false, 113100",
    "true, true, false, 113100 113107 113109",
    "true, false, true, 113100 113107 113108",
    "false, true, true, 113100 113108 113109"
  })
  void eachOptionKeepsWhatItSaysAndNoMore(
      boolean shift, boolean device, boolean traits, String codes) throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    scan("2.25.1001").write(in.resolve("a"));

    Dataset copy = copies(in, "a key of the first site", new Options(shift, device, traits)).get(0);

    assertEquals(
        List.of(codes.split(" ", -1)),
        copy.items(METHOD_CODES).stream().map(i -> i.text(0x00080100).orElseThrow()).toList());
    assertEquals(shift ? "MODIFIED" : "REMOVED", copy.text(MODIFIED).orElseThrow());
    assertEquals(device ? Optional.of("TL2-0042") : Optional.of("REMOVED"), copy.text(SERIAL));
    assertEquals(device ? Optional.of("LANE 3") : Optional.of("REMOVED"), copy.text(STATION));
    assertEquals(traits ? Optional.of("F") : Optional.empty(), copy.text(SEX));
    assertTrue(copy.has(SEX), "sex is type 2");
    assertEquals(traits ? Optional.of("074Y") : Optional.empty(), copy.text(AGE));
    String acquired = copy.text(Tags.ACQUISITION_DATETIME).orElseThrow();
    if (shift) {
      assertTrue(acquired.endsWith("101530.250000+0100"), acquired);
      assertNotEquals("20250314", acquired.substring(0, 8));
      assertEquals(acquired.substring(0, 8), copy.text(Tags.STUDY_DATE).orElseThrow());
    } else {
      assertEquals("19000101000000", acquired);
      assertEquals(Optional.empty(), copy.text(Tags.STUDY_DATE));
    }
  }

  @Test
  void theKeyAloneDecidesPseudonymsAndUids() throws Exception {
    Path one = Files.createDirectories(folder.resolve("one"));
    Path two = Files.createDirectories(folder.resolve("two"));
    scan("2.25.1001").write(one.resolve("a"));
    scan("2.25.1001").write(two.resolve("another-name"));
    Options options = new Options(true, false, false);

    Dataset first = copies(one, "a key of the first site", options).get(0);
    Dataset again = copies(two, "a key of the first site", options).get(0);
    Dataset other = copies(one, "a key of another site", options).get(0);

    assertEquals(first, again);
    for (int tag :
        List.of(0x00100010, 0x00100020, Tags.SOP_INSTANCE_UID, Tags.STUDY_INSTANCE_UID)) {
      assertNotEquals(first.text(tag), other.text(tag));
    }
  }

  @Test
  void aRunIsCompletedByTheNextAndNothingIsReplaced() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    Path out = folder.resolve("out");
    Options options = new Options(true, false, false);
    scan("2.25.1001").write(in.resolve("a"));
    assertEquals(1, Outcome.written(run(in, out, options)));
    SortedMap<Path, byte[]> before = objects(out);
    Path left = before.firstKey().resolveSibling(".2.25.77.dcm.part");
    Files.writeString(left, "half of Tideline");
    scan("2.25.1001").with(b -> b.text(Tags.STUDY_DATE, Vr.DA, "20250315")).write(in.resolve("a"));
    scan("2.25.1002").write(in.resolve("b"));

    List<Outcome> outcomes = run(in, out, options);

    assertTrue(outcomes.get(0).refused().contains("left as it is"), outcomes.toString());
    assertTrue(outcomes.get(1).written().isPresent());
    assertFalse(Files.exists(left), "what a killed run left is gone");
    assertEquals(2, objects(out).size());
    assertEquals(
        new String(before.get(before.firstKey()), StandardCharsets.ISO_8859_1),
        Files.readString(before.firstKey(), StandardCharsets.ISO_8859_1));
  }

  /** Pseudonyms of two keys in one folder would make two patients of one. */
  @Test
  void aFolderStaysWithItsKey() throws Exception {
    Path out = folder.resolve("out");
    Options options = new Options(true, false, false);
    OutFolder.open(out, options, KEY);
    OutFolder.open(out, options, key("an invented key of the test"));
    String before = Files.readString(out.resolve(ReportFiles.JSON));

    Exception refused =
        assertThrows(
            IllegalArgumentException.class,
            () -> OutFolder.open(out, options, key("another invented key of the test")));

    assertTrue(refused.getMessage().contains("another key"), refused.getMessage());
    assertEquals(before, Files.readString(out.resolve(ReportFiles.JSON)));
    assertFalse(before.contains("invented"), "the key is not in it");
  }

  private static Pseudonyms key(String text) {
    return new Pseudonyms(text.getBytes(StandardCharsets.US_ASCII));
  }

  @Test
  void foldersOfOthersAreNotWrittenTo() throws Exception {
    Path out = Files.createDirectories(folder.resolve("out"));
    Path note = Files.writeString(out.resolve("note"), "somebody's");
    Options shifted = new Options(true, false, false);
    assertThrows(IllegalArgumentException.class, () -> OutFolder.open(out, shifted, KEY));
    assertEquals(List.of("note"), names(out));
    Files.delete(note);

    OutFolder.open(out, shifted, KEY);

    OutFolder.open(out, shifted, KEY);
    assertThrows(
        IllegalArgumentException.class,
        () -> OutFolder.open(out, new Options(false, false, false), KEY));
    assertEquals(List.of("deidentified.json"), names(out));
  }

  private static List<String> names(Path out) throws Exception {
    try (Stream<Path> files = Files.list(out)) {
      return files.map(file -> file.getFileName().toString()).toList();
    }
  }

  private static SortedMap<Path, byte[]> objects(Path out) throws Exception {
    SortedMap<Path, byte[]> objects = new TreeMap<>();
    try (Stream<Path> files = Files.walk(out)) {
      for (Path file : files.filter(f -> f.toString().endsWith(".dcm")).toList()) {
        objects.put(file, Files.readAllBytes(file));
      }
    }
    return objects;
  }

  private List<Outcome> run(Path in, Path out, Options options) throws Exception {
    byte[] key = "an invented key of the test".getBytes(StandardCharsets.US_ASCII);
    return Deidentifiers.of(new Pseudonyms(key))
        .run(List.of(in), OutFolder.open(out, options, new Pseudonyms(key)));
  }

  private List<Dataset> copies(Path in, String key, Options options) throws Exception {
    Path out = Files.createTempDirectory(folder, "out");
    List<Dataset> copies = new ArrayList<>();
    for (Outcome one :
        Deidentifiers.of(new Pseudonyms(key.getBytes(StandardCharsets.US_ASCII)))
            .run(
                List.of(in),
                OutFolder.open(
                    out, options, new Pseudonyms(key.getBytes(StandardCharsets.US_ASCII))))) {
      Path file = out.resolve(one.written().orElseThrow());
      copies.add(ParsedObject.of(file, new PixelMedObjectReader()).attributes());
    }
    return copies;
  }

  private static TomographyBuilder scan(String uid) {
    return new TomographyBuilder()
        .with(
            b ->
                b.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid)
                    .text(0x00100010, Vr.PN, "Tideline^Pipit")
                    .text(SEX, Vr.CS, "F")
                    .text(AGE, Vr.AS, "074Y")
                    .text(STATION, Vr.SH, "LANE 3")
                    .text(SERIAL, Vr.LO, "TL2-0042"));
  }
}
