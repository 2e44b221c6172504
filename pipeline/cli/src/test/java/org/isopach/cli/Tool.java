package org.isopach.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;

/** Runs a DICOM program that is not ours. */
final class Tool {
  private Tool() {}

  /** Returns all that a command prints, whatever its exit code; fails when it is missing. */
  static String run(String... command) throws IOException, InterruptedException {
    Process process;
    try {
      process = new ProcessBuilder(command).redirectErrorStream(true).start();
    } catch (IOException e) {
      throw new AssertionError(command[0] + " is needed by this test; run bin/setup", e);
    }
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    process.waitFor();
    return output;
  }
}
