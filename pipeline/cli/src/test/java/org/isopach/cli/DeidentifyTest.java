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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Copies without identity are measured as their originals are. */
class DeidentifyTest {
  @TempDir Path folder;

  @Test
  void tablesAreEqualButForIdsAndDates() throws IOException {
    Path study = folder.resolve("study");
    new VisitFolder(study).write("Pipit.dcm", Laterality.RIGHT, 0, 0, 0);
    Map<String, String> before = Folders.digests(study);
    Path key = Files.writeString(folder.resolve("key"), "0123456789abcdef0123456789abcdef");
    Path copies = folder.resolve("copies");

    Call call = Call.isopach("deidentify", study, "--out", copies, "--key-file", key);

    assertEquals(0, call.code(), call.err());
    assertEquals(before, Folders.digests(study));
    for (Path file : Folders.files(copies)) {
      String bytes = Files.readString(file, StandardCharsets.ISO_8859_1);
      for (String secret : List.of(VisitFolder.PATIENT, "Tideline", "SK2-0042", "0123456789abc")) {
        assertFalse(bytes.contains(secret), secret + " in " + file);
      }
    }
    assertEquals(0, Call.isopach("measure", study, "--out", folder.resolve("one")).code());
    assertEquals(0, Call.isopach("measure", copies, "--out", folder.resolve("two")).code());
    List<List<String>> one = values(folder.resolve("one/sectors.csv"));
    assertTrue(one.size() > 30);
    assertEquals(one, values(folder.resolve("two/sectors.csv")));
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

  /** Layer, grid, sector and what is measured: everything from the seventh column on. */
  private static List<List<String>> values(Path table) throws IOException {
    return Folders.rows(table).stream().map(row -> row.subList(6, 20)).toList();
  }
}
