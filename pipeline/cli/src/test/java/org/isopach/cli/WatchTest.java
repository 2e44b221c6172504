package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.dicom.network.ListenerSettings;
import org.isopach.dicom.network.StorageListener;
import org.isopach.dicom.read.InstanceIdentity;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.report.Cautions;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The watcher as a process of its own, on two studies of one invented patient. */
@Timeout(900)
class WatchTest {
  private static final long PATIENCE_SECONDS = 300;
  private static final int MOST_STARTS = 10;
  private static final List<String> HOW =
      List.of("--job", "measure", "--layer", "ILM-BM", "--skip", "pictures");

  @TempDir static Path shared;
  @TempDir Path folder;

  private static Path study;
  private static final SortedMap<String, SortedMap<String, String>> EXPECTED = new TreeMap<>();

  /** Measures each study by itself: that is what a watcher must bring. */
  @BeforeAll
  static void measureEachStudy() throws Exception {
    study = shared.resolve("in");
    VisitFolder visits =
        new VisitFolder(study, ScanPlan.raster(new ScanSize(19, 128, 496), 3.87, 6.4, 6.4, 0));
    visits.write("first", Laterality.RIGHT, 0, 60, 0);
    visits.write("second", Laterality.RIGHT, 30, 20, 0);
    for (Path file : Folders.files(study)) {
      Path out = shared.resolve("expected").resolve(file.getFileName());
      List<Object> call = new ArrayList<>(List.of("measure", file, "--out", out));
      call.addAll(HOW.subList(2, HOW.size()));
      assertEquals(0, Call.isopach(call.toArray()).code());
      EXPECTED.put(InstanceIdentity.of(file).studyUid(), Folders.results(out));
    }
    assertEquals(2, EXPECTED.size());
  }

  @Test
  void killedWithinAStudyItDoesEachStudyOnceInTheEnd() throws Exception {
    SortedMap<String, String> before = state(study);
    Path out = killedWithinTheSecondStudy();

    Call call = watch(study, out, "--once");

    assertEquals(0, call.code(), call.err());
    assertEquals(1, lines(call.err(), "working on"), call.err());
    assertResults(out, ".*");
    assertEquals(before, state(study), "names, bytes and times of the inputs");

    Call again = watch(study, out, "--once");
    assertEquals(0, again.code(), again.err());
    assertTrue(again.err().contains("nothing new was done"), again.err());
    Call list = Call.isopach("watch", "--list", "--out", out);
    assertEquals(2, lines(list.out(), "done: study "), list.out());
    assertTrue(list.out().contains(Cautions.LINE), list.out());
    assertTrue(call.out().contains(Cautions.LINE), call.out());
  }

  /** Returns the results of a watcher that was killed there; one that was quicker is no use. */
  private Path killedWithinTheSecondStudy() throws Exception {
    for (int start = 0; start < MOST_STARTS; start++) {
      Path out = folder.resolve("out-" + start);
      Process watcher = start(study, out, "--once");
      try {
        await(() -> !watcher.isAlive() || withinTheSecondStudy(out));
      } finally {
        watcher.destroyForcibly().waitFor();
      }
      if (withinTheSecondStudy(out)) {
        return out;
      }
    }
    throw new AssertionError("no watcher was killed with one study done and one under way");
  }

  private static boolean withinTheSecondStudy(Path out) {
    return count(out, "run-1") == 1 && count(out, ".run-1.part") == 1;
  }

  @Test
  void watchesTheFolderOfAListenerWhileObjectsComeIn() throws Exception {
    assumeTrue(installed("storescu"), "storescu is not installed; bin/setup installs dcmtk");
    Path received = folder.resolve("received");
    Path out = folder.resolve("out");
    try (StorageListener listener =
        StorageListener.start(
            ListenerSettings.usual(0, "SANDPIPER", received), (kind, line) -> {})) {
      Process watcher = start(received, out);
      try {
        for (Path file : Folders.files(study)) {
          Process sender =
              new ProcessBuilder(
                      "storescu",
                      "-aec",
                      "SANDPIPER",
                      NetworkFiles.HOST,
                      "" + listener.port(),
                      file.toString())
                  .start();
          assertEquals(0, sender.waitFor());
        }
        await(() -> count(out, "run-1") == 2);
      } finally {
        watcher.destroy();
        assertTrue(watcher.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS));
      }
      assertEquals(143, watcher.exitValue(), "128 and SIGTERM (15)");
      assertTrue(Files.exists(received.resolve(".incoming/lock")), "it was there all the time");
    }
    // The sender writes files of its own; objects refer to the file, tables to the object.
    assertResults(out, ".*[.]csv");
    Call list = Call.isopach("watch", "--list", "--out", out);
    assertEquals(2, lines(list.out(), "done: study "), list.out());
    assertTrue(list.out().contains("0 files of other kinds"), list.out());
  }

  @Test
  void wrongCallsAreRefusedAndNothingIsWritten() throws IOException {
    Path in = Files.createDirectories(folder.resolve("in/deeper")).getParent();
    Path out = folder.resolve("out");

    assertRefused("lie in one another", in, "--out", in.resolve("results"));
    assertRefused("lie in one another", in.resolve("deeper"), "--out", in);
    assertRefused("name a folder", "--out", out);
    assertRefused("is not a folder", folder.resolve("nowhere"), "--out", out);
    assertRefused("--every must be from", in, "--out", out, "--every", "0");
    assertRefused("--retries must be from", in, "--out", out, "--retries", "-1");
    assertRefused("colour", in, "--out", out, "--job", "colour");
    assertEquals(1, Call.isopach("watch", "--list", "--out", out).code());
    assertFalse(Files.exists(out));
    assertEquals(List.of(), Folders.files(in));

    assertEquals(0, watch(in, out, "--once").code());
    assertRefused("give another folder", in, "--out", out, "--once", "--grid", "etdrs-1-2.22-3.45");
  }

  private static void assertRefused(String why, Object... arguments) {
    List<Object> call = new ArrayList<>(List.of("watch"));
    call.addAll(List.of(arguments));
    Call result = Call.isopach(call.toArray());
    assertEquals(2, result.code(), result.err());
    assertTrue(result.err().contains(why), result.err());
  }

  private static void assertResults(Path out, String files) throws IOException {
    for (String uid : EXPECTED.keySet()) {
      try (Stream<Path> runs = Files.list(out.resolve(uid))) {
        assertEquals(List.of("run-1"), runs.map(run -> run.getFileName().toString()).toList());
      }
      assertEquals(
          chosen(EXPECTED.get(uid), files),
          chosen(Folders.results(out.resolve(uid).resolve("run-1/measure")), files));
    }
  }

  private static SortedMap<String, String> chosen(SortedMap<String, String> all, String files) {
    SortedMap<String, String> chosen = new TreeMap<>(all);
    chosen.keySet().removeIf(name -> !name.matches(files));
    assertTrue(chosen.size() >= 4, all.toString());
    return chosen;
  }

  private static List<String> arguments(Path in, Path out, String... further) {
    List<String> words = new ArrayList<>(List.of("watch", in.toString(), "--out", out.toString()));
    words.addAll(List.of("--every", "0.2", "--quiet", "0.5"));
    words.addAll(HOW);
    words.addAll(List.of(further));
    return words;
  }

  private static Call watch(Path in, Path out, String... further) {
    return Call.isopach(arguments(in, out, further).toArray());
  }

  private static Process start(Path in, Path out, String... further) throws IOException {
    List<String> command =
        new ArrayList<>(
            List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx512m",
                "-XX:-UsePerfData",
                "-XX:TieredStopAtLevel=1",
                "-cp",
                System.getProperty("java.class.path"),
                Isopach.class.getName()));
    command.addAll(arguments(in, out, further));
    return new ProcessBuilder(command)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD)
        .redirectError(ProcessBuilder.Redirect.DISCARD)
        .start();
  }

  /** Something that becomes true. */
  private interface Condition {
    boolean holds() throws IOException;
  }

  private static void await(Condition condition) throws Exception {
    long end = System.nanoTime() + Duration.ofSeconds(PATIENCE_SECONDS).toNanos();
    while (!condition.holds()) {
      assertTrue(System.nanoTime() < end, "it did not happen in time");
      Thread.sleep(5);
    }
  }

  private static long count(Path out, String name) {
    return EXPECTED.keySet().stream()
        .filter(uid -> Files.exists(out.resolve(uid).resolve(name)))
        .count();
  }

  private static SortedMap<String, String> state(Path in) throws IOException {
    SortedMap<String, String> state = Folders.digests(in);
    for (Path file : Folders.files(in)) {
      state.merge(
          in.relativize(file).toString(), " " + Files.getLastModifiedTime(file), String::concat);
    }
    state.put("", "" + Files.getLastModifiedTime(in));
    return state;
  }

  private static long lines(String text, String words) {
    return text.lines().filter(line -> line.contains(words)).count();
  }

  private static boolean installed(String program) {
    return Stream.of(System.getenv("PATH").split(File.pathSeparator, -1))
        .anyMatch(place -> Files.isExecutable(Path.of(place, program)));
  }
}
