package org.isopach.report.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.isopach.dicom.file.FileDigest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class CompleteFileTest {
  @TempDir Path folder;

  @Test
  void makesTheFolderAndReturnsThePublishedDigest() throws IOException {
    Path file = folder.resolve("a/b/c.txt");

    String digest =
        CompleteFile.write(file, out -> out.write("abc".getBytes(StandardCharsets.US_ASCII)));

    // FIPS 180-4, worked example for the message "abc".
    assertEquals("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", digest);
    assertEquals("abc", Files.readString(file));
    assertEquals(digest, FileDigest.sha256(file));
  }

  @Test
  void leavesTheOldFileWhenTheNewOneFails() throws IOException {
    Path file = folder.resolve("table.csv");
    Files.writeString(file, "old");

    IOException thrown =
        assertThrows(
            IOException.class,
            () ->
                CompleteFile.write(
                    file,
                    out -> {
                      out.write(new byte[100_000]);
                      throw new IOException("disk full");
                    }));

    assertEquals("disk full", thrown.getMessage());
    assertEquals("old", Files.readString(file));
    try (Stream<Path> left = Files.list(folder)) {
      assertEquals(1, left.count());
    }
  }

  @Test
  void takesUpWhatAnInterruptedRunLeft() throws IOException {
    Path file = folder.resolve("table.csv");
    Path part = folder.resolve(".table.csv.part");
    Files.writeString(part, "half of a much longer ta");

    CompleteFile.write(file, out -> out.write('x'));

    assertEquals("x", Files.readString(file));
    assertFalse(Files.exists(part));
  }
}
