package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The help is part of the interface: a change of it must be seen. */
class HelpTest {
  @ParameterizedTest
  @ValueSource(
      strings = {
        "isopach",
        "demo",
        "measure",
        "compare",
        "series",
        "nerve",
        "asymmetry",
        "repeatability",
        "crosscheck",
        "inspect",
        "deidentify",
        "wrap",
        "receive",
        "send",
        "fetch",
        "post",
        "watch"
      })
  void isAsItStandsInTheResource(String command) throws IOException {
    Call call =
        command.equals("isopach") ? Call.isopach("--help") : Call.isopach(command, "--help");

    assertEquals(0, call.code());
    assertEquals(golden(command), call.out().replace("\r\n", "\n"));
  }

  private static String golden(String command) throws IOException {
    try (InputStream in = HelpTest.class.getResourceAsStream("/help/" + command + ".txt")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
