package org.isopach.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Puts files into JPEG 2000 (lossless) with an outside tool. */
final class Transcoder {
  private static final String TOOL = "gdcmconv";

  private Transcoder() {}

  /** Returns why it cannot be done on this machine, or empty. */
  static Optional<String> obstacle() {
    String path = System.getenv("PATH");
    for (String place : path == null ? new String[0] : path.split(java.io.File.pathSeparator)) {
      if (Files.isExecutable(Path.of(place, TOOL))) {
        return Optional.empty();
      }
    }
    return Optional.of(TOOL + " is not installed");
  }

  /** Puts the first files of a folder, by name, into another folder. */
  static void toJpeg2000(Path from, Path into, int count) throws IOException, InterruptedException {
    Files.createDirectories(into);
    List<Path> files;
    try (Stream<Path> list = Files.list(from)) {
      files = list.sorted().limit(count).toList();
    }
    for (Path file : files) {
      Process process =
          new ProcessBuilder(
                  TOOL, "--j2k", file.toString(), into.resolve(file.getFileName()).toString())
              .redirectErrorStream(true)
              .redirectOutput(ProcessBuilder.Redirect.DISCARD)
              .start();
      int code = process.waitFor();
      if (code != 0) {
        throw new IOException(TOOL + " ended with " + code + " on " + file);
      }
    }
  }
}
