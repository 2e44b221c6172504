package org.isopach.job.watch;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.isopach.job.ExitStatus;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Work that fails, watchers that are killed, journals that are cut. The clock is ours. */
class FailingWorkTest {
  private static final String STUDY = "2.25.31";
  private static final String OTHER = "2.25.32";

  @TempDir Path folder;
  private WatchBench bench;

  /** Stands for the end of the process: nothing in the watcher may answer it. */
  private static final class Killed extends Error {
    private static final long serialVersionUID = 1L;
  }

  @BeforeEach
  void prepare() throws IOException {
    bench = new WatchBench(folder);
    SmallObjects.scan(bench.in.resolve("a"), "TSEU-1", STUDY, "2.25.1");
  }

  @Test
  void isTriedAgainAfterOneTwoAndFourMinutesThenParked() throws IOException {
    SmallObjects.scan(bench.in.resolve("b"), "TSEU-2", OTHER, "2.25.2");
    bench.work =
        (inputs, out, listener) ->
            inputs.get(0).endsWith("a")
                ? WatchBench.failed("the disk is away")
                : WatchBench.done(ExitStatus.ALL_MEASURED);

    ExitStatus status = bench.until(7200);

    assertEquals(ExitStatus.SOME_NOT_MEASURED, status);
    List<Long> tries = timesOf("a");
    assertEquals(1 + WatchBench.RETRIES, tries.size(), tries.toString());
    long[] waits = {60, 120, 240};
    for (int i = 0; i < waits.length; i++) {
      long wait = tries.get(i + 1) - tries.get(i);
      assertTrue(wait >= waits[i] && wait <= waits[i] + WatchBench.EVERY, tries.toString());
    }
    assertEquals(1, timesOf("b").size());
    WatchList.Unit parked = bench.list().units().get(0);
    assertEquals(WatchList.State.PARKED, parked.state());
    assertEquals("the disk is away", parked.reason());
    assertEquals(List.of("a"), bench.results(STUDY, 1), "what the last try brought is kept");
    assertEquals(List.of(STUDY + "/run-1", OTHER + "/run-1"), bench.folders());
  }

  @Test
  void theWaitOutlivesARestart() throws IOException {
    bench.work = (inputs, out, listener) -> WatchBench.failed("out of memory");
    bench.once();
    assertEquals(1, bench.runs.size());
    assertEquals(WatchList.State.FAILED, bench.list().units().get(0).state());

    bench.once();
    assertEquals(1, bench.runs.size(), "the wait is not over");
    bench.work = (inputs, out, listener) -> WatchBench.done(ExitStatus.ALL_MEASURED);
    bench.until(200);

    assertEquals(2, bench.runs.size());
    assertEquals(WatchList.State.DONE, bench.list().units().get(0).state());
  }

  @Test
  void whatIsParkedIsTriedWhenAskedOrWhenSomethingNewComes() throws IOException {
    bench.work = (inputs, out, listener) -> WatchBench.failed("no");
    bench.until(7200);
    int parked = bench.runs.size();
    bench.until(3600);
    assertEquals(parked, bench.runs.size());

    bench.again = true;
    bench.work = (inputs, out, listener) -> WatchBench.done(ExitStatus.ALL_MEASURED);
    bench.once();
    assertEquals(parked + 1, bench.runs.size());
    assertEquals(WatchList.State.DONE, bench.list().units().get(0).state());

    SmallObjects.scan(bench.in.resolve("c"), "TSEU-1", STUDY, "2.25.3");
    bench.again = false;
    bench.once();
    assertEquals(List.of("a", "c"), bench.runs.get(parked + 1));
  }

  @Test
  void workThatIsKilledIsDoneAgainFromTheStart() throws IOException {
    bench.work =
        (inputs, out, listener) -> {
          write(out.resolve("half"));
          throw new Killed();
        };
    assertThrows(Killed.class, bench::once);
    assertEquals(List.of(STUDY + "/.run-1.part"), bench.folders());
    assertEquals(WatchList.State.BEGUN, bench.list().units().get(0).state());

    bench.work = (inputs, out, listener) -> WatchBench.done(ExitStatus.ALL_MEASURED);
    bench.until(300);

    assertEquals(List.of(STUDY + "/run-1"), bench.folders());
    try (var files = Files.list(bench.out.resolve(STUDY).resolve("run-1"))) {
      assertEquals(List.of("inputs"), files.map(f -> f.getFileName().toString()).toList());
    }
  }

  @Test
  void workThatKillsTheWatcherEveryTimeIsParkedAndTheRestIsDone() throws IOException {
    SmallObjects.scan(bench.in.resolve("b"), "TSEU-2", OTHER, "2.25.2");
    bench.work =
        (inputs, out, listener) -> {
          if (inputs.get(0).endsWith("a")) {
            throw new Killed();
          }
          return WatchBench.done(ExitStatus.ALL_MEASURED);
        };
    int starts = 0;
    boolean killed = true;
    while (killed && starts < 20) {
      starts++;
      try {
        bench.until(300);
        killed = false;
      } catch (Killed e) {
        killed = true;
        bench.time = new PlannedTime();
      }
    }

    assertEquals(1 + WatchBench.RETRIES, timesOf("a").size());
    assertEquals(1, timesOf("b").size());
    assertEquals(WatchList.State.PARKED, bench.list().units().get(0).state());
    assertTrue(bench.list().units().get(0).reason().contains("ended while it worked"));
    assertEquals(List.of(OTHER + "/run-1"), bench.folders());
  }

  @Test
  void workThatIsStoppedCountsForNothingAndIsDoneAgain() throws IOException {
    bench.work =
        (inputs, out, listener) -> {
          bench.stop();
          Thread.sleep(60_000);
          return WatchBench.done(ExitStatus.ALL_MEASURED);
        };
    for (int i = 0; i < WatchBench.RETRIES + 2; i++) {
      bench.time = new PlannedTime();
      bench.once();
      assertEquals(List.of(), bench.folders());
    }
    assertEquals(WatchBench.RETRIES + 2, bench.runs.size());
    assertEquals(WatchList.State.WAITING, bench.list().units().get(0).state());

    bench.work = (inputs, out, listener) -> WatchBench.done(ExitStatus.ALL_MEASURED);
    bench.once();

    assertEquals(List.of("a"), bench.results(STUDY, 1));
  }

  @Test
  void resultsThatWereWrittenDownButNotRenamedGetTheirPlace() throws IOException {
    bench.once();
    Path unit = bench.out.resolve(STUDY);
    Files.move(unit.resolve("run-1"), unit.resolve(".run-1.part"));

    bench.once();

    assertEquals(1, bench.runs.size());
    assertEquals(List.of(STUDY + "/run-1"), bench.folders());
  }

  @Test
  void aJournalCutAnywhereLosesNoResultAndLeavesNothingUndone() throws IOException {
    SmallObjects.scan(bench.in.resolve("b"), "TSEU-2", OTHER, "2.25.2");
    bench.once();
    Path journal = WatchLog.journal(bench.out);
    byte[] whole = Files.readAllBytes(journal);
    for (int length = whole.length; length >= 0; length -= 41) {
      Files.write(journal, Arrays.copyOf(whole, length));
      bench.time = new PlannedTime();
      assertEquals(ExitStatus.ALL_MEASURED, bench.once(), "cut at " + length);
      assertEquals(
          List.of(WatchList.State.DONE, WatchList.State.DONE),
          bench.list().units().stream().map(WatchList.Unit::state).toList(),
          "cut at " + length);
      assertEquals(0, WatchJournal.replay(journal, event -> {}).damaged(), "cut at " + length);
    }

    assertEquals(List.of("a"), bench.results(STUDY, 1));
    assertEquals(List.of("b"), bench.results(OTHER, 1));
    Set<String> inputs = new TreeSet<>();
    bench.runs.forEach(inputs::addAll);
    assertEquals(Set.of("a", "b"), inputs);
  }

  @Test
  void aDamagedLineCostsOnlyWhatItWasAbout() throws IOException {
    SmallObjects.scan(bench.in.resolve("b"), "TSEU-2", OTHER, "2.25.2");
    bench.once();
    Path journal = WatchLog.journal(bench.out);
    List<String> lines = Files.readAllLines(journal);
    int ended = -1;
    for (int i = 0; i < lines.size(); i++) {
      ended = lines.get(i).contains("\tended\tTSEU-1") ? i : ended;
    }
    lines.set(ended, lines.get(ended).replace("measured", "mislaid"));
    Files.write(journal, lines);

    bench.until(300);

    assertEquals(List.of(List.of("a"), List.of("b"), List.of("a")), bench.runs);
    assertEquals(1, bench.said("damaged"), bench.said.toString());
    assertEquals(List.of(STUDY + "/run-1", STUDY + "/run-2", OTHER + "/run-1"), bench.folders());
  }

  private static void write(Path file) {
    try {
      Files.writeString(file, "half a ta");
    } catch (IOException e) {
      throw new IllegalStateException(e);
    }
  }

  private List<Long> timesOf(String name) {
    List<Long> times = new ArrayList<>();
    for (int i = 0; i < bench.runs.size(); i++) {
      if (bench.runs.get(i).contains(name)) {
        times.add(bench.times.get(i));
      }
    }
    return times;
  }
}
