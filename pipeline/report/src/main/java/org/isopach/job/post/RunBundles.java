package org.isopach.job.post;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.scan.Sha256;

/**
 * The FHIR files of a run as its record lists them: what an earlier run left in the folder is none
 * of them.
 */
final class RunBundles {
  private final Path run;
  private final List<Entry> entries;

  /** A file by its name in the record, and its digest. */
  private record Entry(String name, String sha256) {}

  private RunBundles(Path run, List<Entry> entries) {
    this.run = run;
    this.entries = entries;
  }

  /**
   * Reads the record of a run.
   *
   * @throws IOException when there is none; the message says so
   */
  static RunBundles of(Path run) throws IOException {
    JsonNode record;
    try {
      record = new ObjectMapper().readTree(Files.readAllBytes(run.resolve("run.json")));
    } catch (NoSuchFileException e) {
      throw new IOException("'" + run + "' has no run.json; give the folder of a run", e);
    } catch (JsonProcessingException e) {
      throw new IOException("'" + run.resolve("run.json") + "' is no record of a run", e);
    }
    List<Entry> entries = new ArrayList<>();
    for (JsonNode output : record.path("outputs")) {
      String name = output.path("file").asText();
      if (name.matches("fhir/[^/\\\\]+\\.json")) {
        entries.add(new Entry(name, output.path("sha256").asText()));
      }
    }
    return new RunBundles(run, entries);
  }

  List<String> names() {
    return entries.stream().map(Entry::name).toList();
  }

  /**
   * Reads a file.
   *
   * @throws IOException when it is not what the run wrote
   */
  Transaction read(String name) throws IOException {
    Entry entry = entries.stream().filter(one -> one.name().equals(name)).findFirst().orElseThrow();
    byte[] bytes;
    try {
      bytes = Files.readAllBytes(run.resolve(name));
    } catch (NoSuchFileException e) {
      throw new IOException("it is gone since the run; run again", e);
    }
    if (!Sha256.of(bytes).equals(entry.sha256())) {
      throw new IOException("it was changed since the run; run again");
    }
    return Transaction.of(bytes);
  }
}
