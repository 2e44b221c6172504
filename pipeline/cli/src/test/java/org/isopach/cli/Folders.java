package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.dicom.file.FileDigest;

/** Folders as names and digests. */
final class Folders {
  private Folders() {}

  /** Returns the digest of every file under a folder, by relative name. */
  static SortedMap<String, String> digests(Path folder) throws IOException {
    SortedMap<String, String> digests = new TreeMap<>();
    for (Path file : files(folder)) {
      digests.put(folder.relativize(file).toString(), FileDigest.sha256(file));
    }
    return digests;
  }

  /** Returns the digests of all results of a run; the run record has timings and is left out. */
  static SortedMap<String, String> results(Path run) throws IOException {
    SortedMap<String, String> digests = digests(run);
    assertEquals(true, digests.containsKey("run.json"), "run.json is there");
    digests.remove("run.json");
    return digests;
  }

  /** Returns those rows of a table whose layer is the whole retina. */
  static List<List<String>> ofWholeRetina(List<List<String>> rows) {
    List<String> names = LayerCatalogue.WHOLE_RETINA.stream().map(Layer::name).toList();
    return rows.stream().filter(row -> names.contains(row.get(6))).toList();
  }

  static List<Path> files(Path folder) throws IOException {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(Files::isRegularFile).sorted().toList();
    }
  }

  /** Returns the rows of a table without its header, split at commas. */
  static List<List<String>> rows(Path table) throws IOException {
    return Files.readAllLines(table).stream()
        .skip(1)
        .map(line -> List.of(line.split(",", -1)))
        .toList();
  }
}
