package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The command; what it does to objects is tested by {@link DeidentifiedSetTest} and below. */
class DeidentifyTest {
  private static final ScanPlan SMALL = ScanPlan.raster(new ScanSize(3, 32, 496), 3.87, 6, 6, 0);

  @TempDir Path folder;

  @Test
  void objectsThatAreNotCopiedAreNamed() throws Exception {
    Path study = folder.resolve("study");
    Path scan = new VisitFolder(study, SMALL).write("a", Laterality.RIGHT, 0, 0, 0);
    Map<String, String> before = Folders.digests(study);
    Path key = Files.writeString(folder.resolve("key"), "0123456789abcdef0123456789abcdef");
    Path copies = folder.resolve("copies");

    Call whole = Call.isopach("deidentify", study, "--out", copies, "--key-file", key);

    assertEquals(0, whole.code(), whole.err());
    assertEquals(before, Folders.digests(study));
    assertTrue(whole.out().startsWith("1 objects de-identified, 0 files not copied"));
    for (Path file : Folders.files(copies)) {
      String bytes = Files.readString(file, StandardCharsets.ISO_8859_1);
      for (String secret : List.of(VisitFolder.PATIENT, "Tideline", "SK2-0042", "0123456789abc")) {
        assertFalse(bytes.contains(secret), secret + " in " + file);
      }
    }
    Files.copy(scan, study.resolve("b"));
    Call twice = Call.isopach("deidentify", study, "--out", copies, "--key-file", key);
    assertEquals(3, twice.code());
    assertTrue(twice.err().contains("not copied: " + study.resolve("b")), twice.err());
    Files.writeString(Files.createDirectories(folder.resolve("texts")).resolve("a"), "no scan");
    Call none =
        Call.isopach(
            "deidentify",
            folder.resolve("texts"),
            "--out",
            folder.resolve("none"),
            "--key-file",
            key);
    assertEquals(4, none.code());
  }

  @Test
  void aFolderOfAnotherRunIsNotMixed() throws Exception {
    Path study = folder.resolve("study");
    new VisitFolder(study, SMALL).write("a", Laterality.RIGHT, 0, 0, 0);
    Path key = Files.writeString(folder.resolve("key"), "0123456789abcdef");
    Path copies = folder.resolve("copies");
    Call.isopach("deidentify", study, "--out", copies, "--key-file", key);

    Call call =
        Call.isopach("deidentify", study, "--out", copies, "--key-file", key, "--dates", "removed");

    assertEquals(2, call.code());
    assertTrue(call.err().contains("other options; choose another"), call.err());
  }

  @Test
  void aKeyAndAFolderApartAreNeeded() throws IOException {
    Path study = Files.createDirectories(folder.resolve("study"));
    Path weak = Files.writeString(folder.resolve("weak"), "short");
    Path key = Files.writeString(folder.resolve("key"), "0123456789abcdef");

    Call tooShort =
        Call.isopach("deidentify", study, "--out", folder.resolve("o"), "--key-file", weak);
    Call inside = Call.isopach("deidentify", study, "--out", study.resolve("o"), "--key-file", key);

    assertEquals(2, tooShort.code());
    assertEquals(2, inside.code());
    assertFalse(Files.exists(study.resolve("o")));
  }
}
