package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.check.FileChecker;
import org.isopach.dicom.check.KnownValidatorLimits;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Element;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.read.MacularGridReportReader;
import org.isopach.dicom.read.ParsedObject;
import org.isopach.dicom.toolkit.PixelMedObjectReader;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Two visits of an eye with every kind of object this program writes, identifiers planted in all of
 * them: nothing of them is left in the copies, and the copies are the same set.
 */
class DeidentifiedSetTest {
  private static final String TOMOGRAPHY = "1.2.840.10008.5.1.4.1.1.77.1.5.4";
  private static final String EN_FACE = "1.2.840.10008.5.1.4.1.1.77.1.5.7";
  private static final String DOCUMENT = "1.2.840.10008.5.1.4.1.1.104.1";
  private static final Set<String> CLASSES =
      Set.of(
          TOMOGRAPHY,
          "1.2.840.10008.5.1.4.1.1.77.1.5.1",
          EN_FACE,
          "1.2.840.10008.5.1.4.1.1.81.1",
          "1.2.840.10008.5.1.4.1.1.79.1",
          "1.2.840.10008.5.1.4.1.1.66.8",
          "1.2.840.10008.5.1.4.1.1.66.4",
          "1.2.840.10008.5.1.4.1.1.66.1",
          "1.2.840.10008.5.1.4.1.1.30");

  /** Everything a table says of whose and when; the names of columns are the tables' own. */
  private static final Set<String> IDENTITY =
      Set.of(
          "patient_id",
          "study_uid",
          "series_uid",
          "sop_uid",
          "acquired",
          "baseline_study_uid",
          "baseline_series_uid",
          "baseline_sop_uid",
          "baseline_acquired");

  private static final String UNQUOTED_COMMA = ",(?=(?:[^\"]*\"[^\"]*\")*[^\"]*$)";

  @TempDir static Path shared;

  private static Path clean;
  private static Path planted;
  private static Path documents;
  private static Path copies;
  private static String said;
  private static Path run;
  private static Path key;

  @BeforeAll
  static void deidentifyOnce() throws Exception {
    Path study = shared.resolve("study");
    PhantomStudy.wet(ScanPlan.raster(new ScanSize(19, 96, 496), 3.87, 6.4, 6.4, 0)).write(study);
    clean = Files.createDirectories(shared.resolve("clean"));
    run = shared.resolve("run");
    int index = 0;
    for (Path file : Folders.files(study)) {
      if (file.toString().contains("7F10") || file.toString().contains("7F12")) {
        Files.copy(file, clean.resolve("source-" + index++));
      }
    }
    measure(clean, run);
    documents = Files.createDirectories(shared.resolve("documents"));
    for (Path file : Folders.files(run)) {
      if (file.toString().endsWith(".dcm")) {
        Path folder = kind(file).equals(DOCUMENT) ? documents : clean;
        Files.copy(file, folder.resolve("derived-" + file.getFileName()));
      }
    }
    planted = Files.createDirectories(shared.resolve("planted"));
    for (Path file : Folders.files(clean)) {
      PlantedObject.write(file, planted.resolve(file.getFileName()));
    }
    key = Files.writeString(shared.resolve("key"), "an invented key of a test");
    copies = shared.resolve("copies");
    Call call = Call.isopach("deidentify", planted, documents, "--out", copies, "--key-file", key);
    assertEquals(3, call.code(), call.err());
    said = call.err();
  }

  private static String kind(Path file) throws Exception {
    return ParsedObject.of(file, new PixelMedObjectReader())
        .attributes()
        .text(Tags.SOP_CLASS_UID)
        .orElseThrow();
  }

  /** All else is copied: each line of what was said is of a document. */
  @Test
  void documentsAloneAreNotCopied() throws Exception {
    List<Path> files = Folders.files(documents);
    List<String> lines = said.lines().filter(line -> line.startsWith("not copied: ")).toList();
    assertFalse(files.isEmpty());
    assertEquals(files.size(), lines.size(), said);
    for (Path file : files) {
      assertTrue(
          lines.stream()
              .anyMatch(
                  line ->
                      line.contains(file.getFileName().toString())
                          && line.contains("documents cannot be cleaned")),
          said);
    }
  }

  private static void measure(Path in, Path out) {
    Call call =
        Call.isopach(
            "compare",
            in,
            "--out",
            out,
            "--layer",
            "ILM-BM,ILM-RPE,GCL",
            "--skip",
            "pictures,boundaries");
    assertEquals(0, call.code(), call.err());
  }

  @Test
  void everyClassIsThere() throws Exception {
    Set<String> classes = new TreeSet<>();
    for (Dataset object : objects(copies)) {
      classes.add(object.text(Tags.SOP_CLASS_UID).orElseThrow());
    }
    assertEquals(new TreeSet<>(CLASSES), classes);
    assertEquals(objects(planted).size(), objects(copies).size());
  }

  @Test
  void noIdentifierIsLeftInAnyByte() throws Exception {
    Set<String> secrets = new TreeSet<>(PlantedObject.SECRETS);
    for (Dataset object : objects(planted)) {
      uids(object, secrets);
    }
    secrets.add("2.25.4411903");
    assertTrue(secrets.size() > 40, secrets.toString());
    for (Path file : Folders.files(planted)) {
      List<String> forms = forms(file);
      for (String secret : PlantedObject.SECRETS) {
        assertTrue(forms.get(0).contains(lower(secret)), secret + " is planted in " + file);
      }
    }
    for (Path file : Folders.files(copies)) {
      List<String> forms = forms(file);
      for (String secret : secrets) {
        for (String form : forms) {
          assertFalse(form.contains(lower(secret)), secret + " in " + file);
        }
        assertFalse(copies.relativize(file).toString().contains(secret), file.toString());
      }
    }
  }

  /** Returns a file as Latin-1 and as both kinds of UTF-16 from even and odd places. */
  private static List<String> forms(Path file) throws IOException {
    byte[] bytes = Files.readAllBytes(file);
    List<String> forms = new ArrayList<>();
    forms.add(lower(new String(bytes, StandardCharsets.ISO_8859_1)));
    for (Charset wide : List.of(StandardCharsets.UTF_16LE, StandardCharsets.UTF_16BE)) {
      forms.add(lower(new String(bytes, wide)));
      forms.add(lower(new String(bytes, 1, bytes.length - 1, wide)));
    }
    return forms;
  }

  private static String lower(String text) {
    return text.toLowerCase(Locale.ROOT);
  }

  /** Collects the values of all UIDs but the standard's own. */
  private static void uids(Dataset data, Set<String> into) {
    for (Element element : data.elements()) {
      if (element instanceof Element.Sequence sequence) {
        sequence.items().forEach(item -> uids(item, into));
      } else if (element instanceof Element.Text text && text.vr() == Vr.UI) {
        text.values().stream().filter(uid -> !uid.startsWith("1.2.840.10008.")).forEach(into::add);
      }
    }
  }

  @Test
  void referencesWithinTheSetLeadToTheSameKindsOfObjects() throws Exception {
    List<String> before = references(objects(planted));
    assertTrue(before.size() > 30, before.toString());
    assertEquals(before, references(objects(copies)));
  }

  /** Returns the references that lead to an object of a set, as class and class, sorted. */
  private static List<String> references(List<Dataset> objects) {
    Map<String, String> classes = new TreeMap<>();
    for (Dataset object : objects) {
      classes.put(
          object.text(Tags.SOP_INSTANCE_UID).orElseThrow(),
          object.text(Tags.SOP_CLASS_UID).orElseThrow());
    }
    assertEquals(objects.size(), classes.size());
    List<String> references = new ArrayList<>();
    for (Dataset object : objects) {
      collect(object, object.text(Tags.SOP_CLASS_UID).orElseThrow(), classes, references);
    }
    references.sort(null);
    return references;
  }

  private static void collect(
      Dataset data, String from, Map<String, String> classes, List<String> into) {
    for (Element element : data.elements()) {
      if (element instanceof Element.Sequence sequence) {
        sequence.items().forEach(item -> collect(item, from, classes, into));
      }
    }
    data.text(Tags.REFERENCED_SOP_INSTANCE_UID)
        .filter(classes::containsKey)
        .ifPresent(uid -> into.add(from + " to " + classes.get(uid)));
  }

  @Test
  void visitsKeepTheirOrderAndDistance() throws Exception {
    List<LocalDate> before = days(planted);
    List<LocalDate> after = days(copies);
    assertEquals(2, before.size());
    assertEquals(
        ChronoUnit.DAYS.between(before.get(0), before.get(1)),
        ChronoUnit.DAYS.between(after.get(0), after.get(1)));
    assertEquals(PhantomStudy.DAYS, ChronoUnit.DAYS.between(after.get(0), after.get(1)));
    assertNotEquals(before, after);
  }

  private static List<LocalDate> days(Path folder) throws Exception {
    return objects(folder).stream()
        .filter(one -> one.text(Tags.SOP_CLASS_UID).orElseThrow().equals(TOMOGRAPHY))
        .map(one -> one.text(Tags.ACQUISITION_DATETIME).orElseThrow().substring(0, 8))
        .map(day -> LocalDate.parse(day, DateTimeFormatter.BASIC_ISO_DATE))
        .sorted()
        .toList();
  }

  @Test
  void pixelsStayBitForBit() throws Exception {
    assertEquals(pixels(planted), pixels(copies));
  }

  private static List<String> pixels(Path folder) throws Exception {
    List<String> all = new ArrayList<>();
    for (Path file : dicom(folder)) {
      byte[] bytes = PlantedObject.pixels(ParsedObject.of(file, new PixelMedObjectReader()));
      all.add(new String(bytes, StandardCharsets.ISO_8859_1));
    }
    all.sort(null);
    return all;
  }

  /** The judge is dciodvfy; what it says of the object before anything was planted is excused. */
  @Test
  void validatorsFindNoNewError() throws Exception {
    Map<String, Set<String>> before = errors(clean);
    Map<String, Set<String>> after = errors(copies);
    for (Map.Entry<String, Set<String>> one : after.entrySet()) {
      Set<String> fresh = new TreeSet<>(one.getValue());
      fresh.removeAll(before.get(one.getKey()));
      assertEquals(Set.of(), fresh, one.getKey());
    }
  }

  private static Map<String, Set<String>> errors(Path folder) throws Exception {
    Map<String, Set<String>> errors = new TreeMap<>();
    Set<String> judged = new HashSet<>();
    for (Path file : dicom(folder)) {
      Dataset object = ParsedObject.of(file, new PixelMedObjectReader()).attributes();
      String kind = object.text(Tags.SOP_CLASS_UID).orElseThrow();
      Set<String> found = errors.computeIfAbsent(kind, ignored -> new TreeSet<>());
      FileChecker.standard().check(file).violations().forEach(one -> found.add(one.toString()));
      if (judged.add(kind + object.has(0x0028_1101))) {
        found.addAll(
            KnownValidatorLimits.unexcused(
                kind, Programs.run("dciodvfy", file.toString()).output()));
      }
    }
    return errors;
  }

  @Test
  void reportsSayTheSameAndCautionsStay() throws Exception {
    assertEquals(reports(clean), reports(copies));
    for (Path file : dicom(copies)) {
      Dataset object = ParsedObject.of(file, new PixelMedObjectReader()).attributes();
      boolean source = object.texts(Tags.IMAGE_TYPE).contains("ORIGINAL");
      String bytes = Files.readString(file, StandardCharsets.ISO_8859_1);
      assertTrue(source || bytes.contains("Not a diagnosis"), file.toString());
    }
  }

  private static List<String> reports(Path folder) throws Exception {
    List<String> values = new ArrayList<>();
    for (Path file : dicom(folder)) {
      Dataset object = ParsedObject.of(file, new PixelMedObjectReader()).attributes();
      if (object.text(Tags.SOP_CLASS_UID).orElseThrow().endsWith(".79.1")) {
        assertEquals(0, Programs.run("dsrdump", file.toString()).code(), file.toString());
        MacularGridReportReader.read(file)
            .forEach(eye -> values.add(eye.laterality() + " " + eye.values()));
      }
    }
    assertEquals(2, values.size());
    values.sort(null);
    return values;
  }

  @Test
  void tablesAreEqualButForIdsAndDates() throws Exception {
    Path scans = Files.createDirectories(shared.resolve("scans"));
    for (Path file : dicom(copies)) {
      String kind = kind(file);
      if (kind.contains(".77.1.5.") && !kind.equals(EN_FACE)) {
        Files.copy(file, scans.resolve(file.getFileName()));
      }
    }
    Path again = shared.resolve("again");
    measure(scans, again);
    for (String table : List.of("sectors.csv", "change.csv", "fluid.csv", "quality.csv")) {
      List<List<String>> expected = values(run.resolve(table));
      assertTrue(expected.size() > 10, table);
      assertEquals(expected, values(again.resolve(table)), table);
    }
  }

  /** Returns the rows without the columns of identity, in their order. */
  private static List<List<String>> values(Path table) throws IOException {
    List<String> names = List.of(Files.readAllLines(table).get(0).split(",", -1));
    List<List<String>> rows = new ArrayList<>();
    for (String line : Files.readAllLines(table)) {
      List<String> row = List.of(line.split(UNQUOTED_COMMA, -1));
      assertEquals(names.size(), row.size(), line);
      List<String> kept = new ArrayList<>();
      for (int i = 0; i < row.size(); i++) {
        if (!IDENTITY.contains(names.get(i))) {
          kept.add(row.get(i));
        }
      }
      rows.add(kept);
    }
    return rows;
  }

  @Test
  void theSameKeyContinuesAndAnotherDoesNot() throws Exception {
    Path part = Files.createDirectories(shared.resolve("part"));
    for (Path file : Folders.files(planted)) {
      if (file.getFileName().toString().startsWith("source-")) {
        Files.copy(file, part.resolve(file.getFileName()));
      }
    }
    Path same = shared.resolve("same");
    Path other = shared.resolve("other");
    Path second = Files.writeString(shared.resolve("second"), "another invented key");
    Call.isopach("deidentify", part, "--out", same, "--key-file", key);
    Call.isopach("deidentify", part, "--out", other, "--key-file", second);

    Map<String, String> whole = Folders.digests(copies);
    for (Path file : dicom(same)) {
      String name = same.relativize(file).toString();
      assertEquals(Folders.digests(same).get(name), whole.get(name));
    }
    assertEquals(4, dicom(same).size());
    assertEquals(4, dicom(other).size());
    for (Path file : dicom(other)) {
      assertFalse(whole.containsKey(other.relativize(file).toString()));
    }
  }

  private static List<Dataset> objects(Path folder) throws Exception {
    List<Dataset> objects = new ArrayList<>();
    for (Path file : dicom(folder)) {
      objects.add(ParsedObject.of(file, new PixelMedObjectReader()).attributes());
    }
    return objects;
  }

  private static List<Path> dicom(Path folder) throws IOException {
    return Folders.files(folder).stream()
        .filter(file -> !file.toString().matches(".*deidentified[.](csv|json)"))
        .toList();
  }
}
