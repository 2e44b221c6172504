package org.isopach.dicom.deidentify;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.stream.Stream;

/**
 * The folder copies go into. A file under a final name is whole; what a killed run left under other
 * names is taken away by the next one.
 */
public final class OutFolder {
  private static final String PART = ".part";

  private final Path root;
  private final Options options;
  private final String keyCheck;

  private OutFolder(Path root, Options options, String keyCheck) {
    this.root = root;
    this.options = options;
    this.keyCheck = keyCheck;
  }

  /**
   * Opens a folder that is missing, empty, or of an earlier run with the same options and key.
   *
   * @throws IllegalArgumentException when it holds anything else; nothing was changed
   * @throws IOException when it cannot be read or written
   */
  public static OutFolder open(Path root, Options options, Pseudonyms names) throws IOException {
    Files.createDirectories(root);
    OutFolder folder = new OutFolder(root, options, names.check());
    if (Files.exists(root.resolve(ReportFiles.JSON))) {
      folder.requireSameOptions();
      folder.clear();
    } else if (!list(root).isEmpty()) {
      throw new IllegalArgumentException(
          "the output folder is not empty and not of an earlier run; choose another");
    }
    ReportFiles.writeStarted(folder);
    return folder;
  }

  Path root() {
    return root;
  }

  Options options() {
    return options;
  }

  /** Returns what tells keys apart; it does not tell the key. */
  String keyCheck() {
    return keyCheck;
  }

  private void requireSameOptions() throws IOException {
    Options earlier;
    String earlierKey;
    try {
      JsonNode json = new ObjectMapper().readTree(root.resolve(ReportFiles.JSON).toFile());
      earlierKey = json.path(ReportFiles.KEY_CHECK).asText();
      earlier =
          new Options(
              json.path("dates").asText().equals("shifted"),
              json.path("device_kept").asBoolean(),
              json.path("characteristics_kept").asBoolean());
    } catch (JsonProcessingException e) {
      throw new IllegalArgumentException(
          "the output folder's " + ReportFiles.JSON + " is not readable; choose another folder", e);
    }
    if (!earlier.equals(options)) {
      throw new IllegalArgumentException(
          "the output folder is of a run with other options; choose another");
    }
    if (!earlierKey.equals(keyCheck)) {
      throw new IllegalArgumentException(
          "the output folder is of a run with another key; choose another or give that key");
    }
  }

  /** Takes away what a killed run left: hidden part files, two levels down at most. */
  private void clear() throws IOException {
    for (Path child : list(root)) {
      boolean folder = Files.isDirectory(child) && !Files.isSymbolicLink(child);
      for (Path file : folder ? list(child) : List.of(child)) {
        String name = file.getFileName().toString();
        if (name.startsWith(".") && name.endsWith(PART)) {
          Files.delete(file);
        }
      }
    }
  }

  private Path target(Path relative) throws IOException {
    Path target = root.resolve(relative).normalize();
    if (!target.startsWith(root.normalize()) || target.equals(root.normalize())) {
      throw new IOException("a copy would lie outside of the output folder");
    }
    return target;
  }

  /** Returns a hidden name beside a target; its folder is made. */
  Path part(Path relative) throws IOException {
    Path target = target(relative);
    Files.createDirectories(target.getParent());
    return target.resolveSibling("." + target.getFileName() + PART);
  }

  /**
   * Gives a finished part its final name.
   *
   * @throws Refusal when another file has it already; the same bytes are no other file
   */
  void finish(Path part, Path relative) throws IOException, Refusal {
    Path target = target(relative);
    if (Files.exists(target)) {
      if (Files.mismatch(part, target) >= 0) {
        throw new Refusal(
            "an earlier run wrote another object with this SOP Instance UID; it was left as it is");
      }
      Files.delete(part);
      return;
    }
    move(part, target);
  }

  /** Takes away a part that did not become a file, and its folder when nothing else is in it. */
  void discard(Path part) throws IOException {
    Files.deleteIfExists(part);
    Path folder = part.getParent();
    if (!folder.equals(root.normalize()) && list(folder).isEmpty()) {
      Files.delete(folder);
    }
  }

  /** Replaces a file at the root. */
  void put(String name, String text) throws IOException {
    Path part = root.resolve("." + name + PART);
    try {
      Files.writeString(part, text);
      move(part, root.resolve(name));
    } finally {
      Files.deleteIfExists(part);
    }
  }

  private static void move(Path from, Path to) throws IOException {
    try {
      Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    } catch (AtomicMoveNotSupportedException e) {
      Files.move(from, to, StandardCopyOption.REPLACE_EXISTING);
    }
  }

  private static List<Path> list(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.sorted().toList();
    }
  }
}
