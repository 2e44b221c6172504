package org.isopach.job.watch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import org.isopach.dicom.read.SopKind;
import org.isopach.job.ExitStatus;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** When files are taken, and that each content is worked on once. The clock is ours. */
class WatcherTest {
  private static final String STUDY = "2.25.31";

  @TempDir Path folder;
  private WatchBench bench;

  @BeforeEach
  void prepare() throws IOException {
    bench = new WatchBench(folder);
  }

  @Test
  void aFileThatGrowsIsTakenOnceItIsWholeAndQuiet() throws IOException {
    Path whole = SmallObjects.scan(folder.resolve("whole"), "TSEU-1", STUDY, "2.25.1");
    byte[] bytes = Files.readAllBytes(whole);
    Path file = bench.in.resolve("a");
    int parts = 12;
    for (int part = 1; part <= parts; part++) {
      byte[] start = Arrays.copyOf(bytes, bytes.length * part / parts);
      bench.time.at(15L * part, () -> Files.write(file, start));
    }

    bench.until(600);

    assertEquals(List.of(List.of("a")), bench.runs);
    long end = 15L * parts;
    assertTrue(bench.times.get(0) >= end + 2 * WatchBench.QUIET, "taken at " + bench.times.get(0));
    assertTrue(
        bench.times.get(0) <= end + 2 * WatchBench.QUIET + 2 * WatchBench.EVERY,
        "taken at " + bench.times.get(0));
    assertEquals(0, bench.said("waiting"), bench.said.toString());
  }

  @Test
  void aFileThatStaysCutIsNamedAndTakenWhenTheRestComes() throws IOException {
    Path whole = SmallObjects.scan(folder.resolve("whole"), "TSEU-1", STUDY, "2.25.1");
    byte[] bytes = Files.readAllBytes(whole);
    Path file = bench.in.resolve("a");
    Files.write(file, Arrays.copyOf(bytes, bytes.length - 1));
    bench.time.at(3600, () -> Files.write(file, bytes));

    bench.until(3595);

    assertEquals(List.of(), bench.runs);
    assertEquals(1, bench.said("still waiting for"), bench.said.toString());
    assertTrue(bench.list().files().get(0).startsWith("waiting: "), bench.list().toString());

    Files.write(file, bytes);
    bench.until(200);

    assertEquals(List.of(List.of("a")), bench.runs);
    assertEquals(List.of(), bench.list().files());
  }

  @Test
  void oneContentIsWorkedOnOnceWhateverItIsCalled() throws IOException {
    Path first = SmallObjects.scan(bench.in.resolve("a"), "TSEU-1", STUDY, "2.25.1");
    Files.createDirectories(bench.in.resolve("deeper"));
    Files.copy(first, bench.in.resolve("deeper/b"));

    assertEquals(ExitStatus.ALL_MEASURED, bench.once());
    assertEquals(List.of(List.of("a")), bench.runs);

    Files.copy(first, bench.in.resolve("c"));
    Files.setLastModifiedTime(first, FileTime.from(PlannedTime.START));
    Files.move(bench.in.resolve("deeper/b"), bench.in.resolve("deeper/d"));
    bench.once();
    bench.until(400);

    assertEquals(1, bench.runs.size(), bench.runs.toString());
    assertTrue(bench.said("nothing new was done") > 0, bench.said.toString());
  }

  @Test
  void changedContentGoesToAFreshRunBesideTheFirst() throws IOException {
    SmallObjects.scan(bench.in.resolve("a"), "TSEU-1", STUDY, "2.25.1");
    bench.once();
    Path changed = SmallObjects.scan(bench.in.resolve("a"), "TSEU-1", STUDY, "2.25.2");
    // As long as before; clocks of file systems may not have moved on meanwhile.
    Files.setLastModifiedTime(changed, FileTime.from(PlannedTime.START));
    SmallObjects.scan(bench.in.resolve("b"), "TSEU-1", STUDY, "2.25.3");

    bench.once();

    assertEquals(List.of(List.of("a"), List.of("a", "b")), bench.runs);
    assertEquals(List.of("a"), bench.results(STUDY, 1));
    assertEquals(List.of("a", "b"), bench.results(STUDY, 2));
    assertTrue(bench.list().units().get(0).folder().endsWith("run-2"));
  }

  @Test
  void aStudyIsWorkedOnWhenNothingNewCameForIt() throws IOException {
    for (int i = 0; i < 6; i++) {
      String name = "f" + i;
      bench.time.at(
          25L * i,
          () ->
              SmallObjects.scan(
                  bench.in.resolve(name), "TSEU-1", STUDY, "2.25.1" + name.charAt(1)));
    }
    SmallObjects.scan(bench.in.resolve("other"), "TSEU-2", "2.25.32", "2.25.2");

    bench.until(600);

    assertEquals(
        List.of(List.of("other"), List.of("f0", "f1", "f2", "f3", "f4", "f5")), bench.runs);
    assertTrue(bench.times.get(0) < 125, "the other study does not wait: " + bench.times);
  }

  @Test
  void hiddenAndTemporaryNamesAndOtherKindsAreLeftAlone() throws IOException {
    Path scan = SmallObjects.scan(folder.resolve("scan"), "TSEU-1", STUDY, "2.25.1");
    for (String name :
        List.of(".incoming/1.part", ".hidden", "a.tmp", "b.dcm.PART", "~c", "d~", ".snap/e")) {
      Path file = bench.in.resolve(name);
      Files.createDirectories(file.getParent());
      Files.copy(scan, file);
    }
    Files.writeString(bench.in.resolve("notes.txt"), "Notes of the SANDPIPER visit.");
    SmallObjects.object(
        bench.in.resolve("fundus"), SopKind.PHOTOGRAPHY_8.uid(), "TSEU-3", "2.25.33", "2.25.4");

    assertEquals(ExitStatus.ALL_MEASURED, bench.once());
    bench.once();
    bench.until(300);

    assertEquals(List.of(), bench.runs);
    assertEquals(1, bench.said("notes.txt"), bench.said.toString());
    assertEquals(1, bench.list().others());
    assertEquals(WatchList.State.NO_SCAN, bench.list().units().get(0).state());
  }

  @Test
  void whatCannotBeUsedIsNamedOnceUntilItChanges() throws IOException {
    Path bad = bench.in.resolve("bad");
    SmallObjects.scan(bad, "TSEU-1", "", "2.25.1");

    assertEquals(ExitStatus.SOME_NOT_MEASURED, bench.once());
    bench.until(900);
    Files.setLastModifiedTime(bad, FileTime.from(PlannedTime.START));
    bench.until(900);

    assertEquals(1, bench.said("left out"), bench.said.toString());
    assertTrue(bench.list().files().get(0).contains("Study Instance UID"));

    SmallObjects.scan(bad, "TSEU-1", STUDY, "2.25.1");
    bench.until(300);
    assertEquals(List.of(List.of("bad")), bench.runs);
  }

  @Test
  void filesThatChangeDuringWorkAreWorkedOnAgain() throws IOException {
    Path file = SmallObjects.scan(bench.in.resolve("a"), "TSEU-1", STUDY, "2.25.1");
    bench.work =
        (inputs, out, listener) -> {
          if (bench.runs.size() == 1) {
            rewrite(file);
          }
          return WatchBench.done(ExitStatus.ALL_MEASURED);
        };

    bench.until(300);

    assertEquals(2, bench.runs.size());
    assertEquals(List.of(STUDY + "/run-1"), bench.folders());
  }

  private static void rewrite(Path file) {
    try {
      SmallObjects.scan(file, "TSEU-1", STUDY, "2.25.99");
      Files.setLastModifiedTime(file, FileTime.from(PlannedTime.START));
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void aShareThatIsGoneForAWhileCostsNothing() throws IOException {
    SmallObjects.scan(bench.in.resolve("deep/a"), "TSEU-1", STUDY, "2.25.1");
    Path away = folder.resolve("away");
    bench.time.at(305, () -> Files.move(bench.in.resolve("deep"), away));
    bench.time.at(605, () -> Files.move(away, bench.in.resolve("deep")));

    bench.until(1200);
    bench.once();

    assertEquals(1, bench.runs.size());
    long examined =
        Files.readAllLines(WatchLog.journal(bench.out)).stream()
            .filter(line -> line.contains("\tfile\t"))
            .count();
    assertEquals(1, examined);
  }

  @Test
  void studiesOfOnePatientAreWorkedOnTogetherWhenVisitsAreCompared() throws IOException {
    bench.byPatient = true;
    SmallObjects.scan(bench.in.resolve("first"), "TSEU-1", "2.25.31", "2.25.1");
    SmallObjects.scan(bench.in.resolve("x"), "TSEU-2", "2.25.41", "2.25.2");
    SmallObjects.scan(bench.in.resolve("nobody"), "", "2.25.51", "2.25.3");
    SmallObjects.scan(bench.in.resolve("nobody2"), "", "2.25.52", "2.25.4");
    bench.once();
    SmallObjects.scan(bench.in.resolve("second"), "TSEU-1", "2.25.32", "2.25.5");

    bench.once();

    assertEquals(5, bench.runs.size(), bench.runs.toString());
    assertEquals(List.of("first", "second"), bench.results("TSEU-1", 2));
    assertEquals(List.of("nobody"), bench.results("2.25.51", 1));
  }

  @Test
  void namesOfStudiesAndPatientsStayWithinTheResults() throws IOException {
    List<String> hostile = List.of("../../up", "..", ".watch", "a/b", "", "2.25.31\u0000", "run");
    for (int i = 0; i < hostile.size(); i++) {
      SmallObjects.scan(bench.in.resolve("f" + i), hostile.get(i), "2.25.3" + i, "2.25." + i);
    }
    SmallObjects.scan(bench.in.resolve("s"), "TSEU-9", "../../2.25.9", "2.25.90");
    bench.byPatient = true;

    bench.once();

    assertEquals(hostile.size() + 1, bench.runs.size());
    assertEquals(hostile.size() + 1, bench.folders().size(), bench.folders().toString());
    try (var beside = Files.list(folder)) {
      assertEquals(
          List.of("in", "out"), beside.map(p -> p.getFileName().toString()).sorted().toList());
    }
  }

  @Test
  void twoPatientsInOneStudyAreKeptApart() throws IOException {
    SmallObjects.scan(bench.in.resolve("a"), "TSEU-1", STUDY, "2.25.1");
    SmallObjects.scan(bench.in.resolve("b"), "TSEU-2", STUDY, "2.25.2");

    bench.once();

    assertEquals(List.of("a"), bench.results(STUDY, 1));
    assertEquals(List.of("b"), bench.results(STUDY + "_2", 1));
  }

  @Test
  void resultsAreNeverReadEvenThroughALink() throws IOException {
    Path own = SmallObjects.scan(bench.out.resolve("2.25.8/run-1/o"), "TSEU-1", STUDY, "2.25.1");
    Files.createSymbolicLink(bench.in.resolve("link"), own);

    bench.once();

    assertEquals(List.of(), bench.runs);
  }

  @Test
  void otherOptionsAndASecondWatcherAreRefused() throws IOException {
    SmallObjects.scan(bench.in.resolve("a"), "TSEU-1", STUDY, "2.25.1");
    bench.work =
        (inputs, out, listener) -> {
          IOException held = assertThrows(IOException.class, () -> bench.once());
          assertTrue(held.getMessage().contains("another watcher"), held.getMessage());
          return WatchBench.done(ExitStatus.ALL_MEASURED);
        };
    bench.once();
    assertEquals(1, bench.runs.size());

    WatchSettings other =
        new WatchSettings(
            List.of(bench.in),
            bench.out,
            false,
            "others",
            Duration.ofSeconds(1),
            Duration.ofSeconds(1),
            0,
            true);
    Watcher watcher = new Watcher(other, bench.work, bench, bench.time);
    assertThrows(IllegalArgumentException.class, () -> watcher.run(false));
    assertFalse(bench.folders().isEmpty());
  }
}
