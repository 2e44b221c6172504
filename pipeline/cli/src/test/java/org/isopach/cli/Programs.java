package org.isopach.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;

/**
 * What a program that is not ours said.
 *
 * @param code its exit code
 * @param output standard output and error together
 */
record Programs(int code, String output) {
  /** Runs a command; a test that needs a program fails when it is not installed. */
  static Programs run(String... command) throws IOException, InterruptedException {
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Programs(process.waitFor(), output);
  }
}
