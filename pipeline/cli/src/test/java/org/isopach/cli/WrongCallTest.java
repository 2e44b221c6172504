package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WrongCallTest {
  @TempDir Path folder;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "--layer ILM-GCL | 'ILM-GCL' is not a layer; there are ILM-BM, ILM-RPE, ILM-EZ, neuro",
        "--overlay-frames 0 | '0' is not a number of frames or 'all'",
        "--grid etdrs | 'etdrs' is not a grid; there are etdrs-1-3-6 and etdrs-1-2.22-3.45",
        "--threads 0 | --threads must be at least 1, was 0",
        "--axial-length X=24 | 'X' is no eye; write R or L",
        "--axial-length R=2.4 | an axial length must be from 18.0 to 35.0 mm, was 2.4",
        "--axial-length R=long | 'long' is not a length in mm",
        "--skip tables | tables",
        "--colour | Unknown option: '--colour'"
      })
  void isRefusedWithTheReason(String option, String reason) {
    String[] words = option.split(" ", -1);
    Object[] call = new Object[4 + words.length];
    System.arraycopy(
        new Object[] {"measure", folder, "--out", folder.resolve("run")}, 0, call, 0, 4);
    System.arraycopy(words, 0, call, 4, words.length);

    Call result = Call.isopach(call);

    assertEquals(2, result.code(), result.err());
    assertTrue(result.err().contains(reason.strip()), result.err());
    assertEquals("", result.out());
  }

  @Test
  void namesAnInputThatIsNotThere() {
    Path missing = folder.resolve("nowhere");

    Call call = Call.isopach("measure", missing, "--out", folder.resolve("run"));

    assertEquals(2, call.code());
    assertTrue(call.err().contains("input '" + missing + "' does not exist"), call.err());
  }

  @Test
  void asksForARunFolderAndForACommand() {
    Call withoutOut = Call.isopach("measure", folder);
    Call withoutCommand = Call.isopach();

    assertEquals(2, withoutOut.code());
    assertTrue(withoutOut.err().contains("--out=DIR"), withoutOut.err());
    assertEquals(2, withoutCommand.code());
    assertTrue(withoutCommand.err().contains("a command is missing"), withoutCommand.err());
  }

  @Test
  void refusesARunFolderThatIsAFile() throws IOException {
    Path file = Files.writeString(folder.resolve("file"), "x");

    Call call = Call.isopach("measure", folder, "--out", file);

    assertEquals(2, call.code());
    assertTrue(call.err().contains("is a file; give a folder"), call.err());
    assertEquals("x", Files.readString(file));
  }

  @Test
  void refusesNoiseOfNobodyAndRepeatsThatAreNotThere() throws IOException {
    Path input = Files.createDirectories(folder.resolve("input"));
    Path out = folder.resolve("out");

    Call nobody = Call.isopach("compare", input, "--out", out, "--published-noise", "cats");
    Call nowhere = Call.isopach("compare", input, "--out", out, "--repeats", folder.resolve("no"));

    assertEquals(2, nobody.code());
    assertTrue(nobody.err().contains("normal, not 'cats'"), nobody.err());
    assertEquals(2, nowhere.code());
    assertTrue(nowhere.err().contains("does not exist"), nowhere.err());
  }

  @Test
  void endsWithFourWhenThereIsNothingToMeasure() throws IOException {
    Path input = Files.createDirectories(folder.resolve("input"));
    Files.writeString(input.resolve("readme.txt"), "no image here");

    for (String command : List.of("measure", "compare")) {
      Call call = Call.isopach(command, input, "--out", folder.resolve(command));

      assertEquals(4, call.code(), call.err());
      assertTrue(call.err().contains("nothing could be measured"), call.err());
      assertTrue(Files.exists(folder.resolve(command).resolve("run.json")));
      assertEquals(1, Files.readAllLines(folder.resolve(command).resolve("sectors.csv")).size());
    }
    assertEquals(4, Call.isopach("inspect", input).code());
  }
}
