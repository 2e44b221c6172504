package org.isopach.dicom.deidentify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.isopach.dicom.fixture.TomographyBuilder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Runs in a process of their own: killed half-way, on a disk that refuses, with little memory. */
class InterruptedRunTest {
  private static final Options OPTIONS = new Options(true, false, false);
  private static final int OBJECTS = 12;

  @TempDir Path folder;

  @Test
  void aKilledRunLeavesWholeFilesAndTheNextCompletesIt() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    for (int i = 0; i < OBJECTS; i++) {
      String uid = "2.25.10" + i;
      new TomographyBuilder()
          .size(20, 200, 150)
          .with(b -> b.text(Tags.SOP_INSTANCE_UID, Vr.UI, uid))
          .write(in.resolve("object-" + i));
    }
    Path whole = folder.resolve("whole");
    main(in.toString(), whole.toString());
    Map<String, Integer> expected = objects(whole);
    assertEquals(OBJECTS, expected.size());
    Path out = folder.resolve("out");

    for (int after : new int[] {1, 5}) {
      Process process = start("unlimited", in, out);
      while (process.isAlive() && count(out) < after) {
        Thread.sleep(1);
      }
      process.destroyForcibly().waitFor();
      Map<String, Integer> found = objects(out);
      assertTrue(found.size() >= after);
      found.forEach((name, hash) -> assertEquals(expected.get(name), hash, name));
    }

    main(in.toString(), out.toString());

    assertEquals(expected, objects(out));
    assertTrue(names(out).noneMatch(name -> name.endsWith(".part")));
  }

  @Test
  void onADiskThatRefusesNothingIsLeftHalfWritten() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder().write(in.resolve("a-small"));
    new TomographyBuilder()
        .size(8, 100, 100)
        .with(b -> b.text(Tags.SOP_INSTANCE_UID, Vr.UI, "2.25.2001"))
        .write(in.resolve("b-large"));
    Path out = folder.resolve("out");

    Process process = start("64", in, out);

    assertNotEquals(0, end(process));
    assertEquals(1, objects(out).size());
    assertTrue(names(out).noneMatch(name -> name.endsWith(".part")));
  }

  /** The process has 32 MiB of memory (see {@link #start}), the pixel data 48 million bytes. */
  @Test
  void pixelDataAreNotHeldInMemory() throws Exception {
    Path in = Files.createDirectories(folder.resolve("in"));
    new TomographyBuilder().size(16, 2000, 1500).write(in.resolve("large"));
    Path out = folder.resolve("out");

    Process process = start("unlimited", in, out);

    assertEquals(0, end(process));
    assertEquals(1, objects(out).size());
  }

  /** Waits for the end and returns the exit code; nothing is left running. */
  private static int end(Process process) throws InterruptedException {
    try {
      assertTrue(process.waitFor(5, TimeUnit.MINUTES), "it does not end");
      return process.exitValue();
    } finally {
      process.destroyForcibly();
    }
  }

  private static Process start(String longestFile, Path in, Path out) throws IOException {
    String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
    return new ProcessBuilder(
            "sh",
            "-c",
            "ulimit -f " + longestFile + "; exec \"$@\"",
            "sh",
            java,
            "-XX:-UsePerfData",
            "-Xmx32m",
            "-XX:+UseSerialGC",
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            InterruptedRunTest.class.getName(),
            in.toString(),
            out.toString())
        .redirectErrorStream(true)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  /** De-identifies a folder into another. */
  public static void main(String... args) throws IOException {
    byte[] key = "an invented key of the test".getBytes(StandardCharsets.US_ASCII);
    OutFolder out = OutFolder.open(Path.of(args[1]), OPTIONS, new Pseudonyms(key));
    FolderDeidentifier work = Deidentifiers.of(new Pseudonyms(key));
    ReportFiles.write(out, work.run(List.of(Path.of(args[0])), out), work.tally());
  }

  private static long count(Path out) throws IOException {
    return Files.exists(out) ? names(out).filter(name -> name.endsWith(".dcm")).count() : 0;
  }

  /** Returns the objects under final names with a hash of their bytes. */
  private static Map<String, Integer> objects(Path out) throws IOException {
    Map<String, Integer> objects = new TreeMap<>();
    if (!Files.exists(out)) {
      return objects;
    }
    for (String name : names(out).filter(name -> name.endsWith(".dcm")).toList()) {
      objects.put(name, Arrays.hashCode(Files.readAllBytes(out.resolve(name))));
    }
    return objects;
  }

  private static Stream<String> names(Path out) throws IOException {
    for (int tries = 0; ; tries++) {
      try (Stream<Path> files = Files.walk(out)) {
        return files.map(file -> out.relativize(file).toString()).toList().stream();
      } catch (UncheckedIOException | NoSuchFileException e) {
        if (tries == 100) {
          throw e;
        }
      }
    }
  }
}
