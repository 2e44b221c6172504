package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.job.ExitStatus;
import org.isopach.job.JobListener;

/**
 * A watcher with work that takes no time: it copies nothing and measures nothing, but notes what it
 * was given and when, and writes the names of its inputs.
 */
final class WatchBench implements WatchTalk {
  static final int RETRIES = 3;
  static final int EVERY = 10;
  static final int QUIET = 30;

  final Path in;
  final Path out;
  final List<String> said = new ArrayList<>();
  final List<List<String>> runs = new ArrayList<>();
  final List<Long> times = new ArrayList<>();
  PlannedTime time = new PlannedTime();
  private Watcher current;
  boolean byPatient;
  boolean again;
  UnitWork work = (inputs, folder, listener) -> done(ExitStatus.ALL_MEASURED);

  WatchBench(Path folder) throws IOException {
    in = Files.createDirectories(folder.resolve("in"));
    out = Files.createDirectories(folder.resolve("out")).toRealPath();
  }

  static WorkResult done(ExitStatus status) {
    return new WorkResult(
        List.of(new WorkResult.JobEnd(WatchJob.MEASURE, status)), Optional.empty());
  }

  static WorkResult failed(String why) {
    return new WorkResult(
        List.of(new WorkResult.JobEnd(WatchJob.MEASURE, ExitStatus.SOME_NOT_MEASURED)),
        Optional.of(why));
  }

  /** Watches until all that was there is done. */
  ExitStatus once() throws IOException {
    return watcher(true).run(again);
  }

  /** Watches for a number of seconds. */
  ExitStatus until(long seconds) throws IOException {
    Watcher watcher = watcher(false);
    time.at(seconds, watcher::stop);
    ExitStatus status = watcher.run(again);
    time = new PlannedTime();
    return status;
  }

  /** Stops the watcher that works just now. */
  void stop() {
    current.stop();
  }

  private Watcher watcher(boolean once) {
    WatchSettings settings =
        new WatchSettings(
            List.of(in),
            out,
            byPatient,
            "options",
            Duration.ofSeconds(EVERY),
            Duration.ofSeconds(QUIET),
            RETRIES,
            once);
    current = new Watcher(settings, this::work, this, time);
    return current;
  }

  private WorkResult work(List<Path> inputs, Path folder, JobListener listener)
      throws InterruptedException {
    List<String> names = inputs.stream().map(path -> in.relativize(path).toString()).toList();
    runs.add(names);
    times.add(time.seconds());
    WorkResult result = work.run(inputs, folder, listener);
    try {
      Files.write(folder.resolve("inputs"), names);
    } catch (IOException e) {
      return failed(e.toString());
    }
    return result;
  }

  /** Returns the list of what is known. */
  WatchList list() throws IOException {
    return WatchList.of(out);
  }

  /** Returns the names of the inputs of a run's results. */
  List<String> results(String name, int run) throws IOException {
    return Files.readAllLines(out.resolve(name).resolve("run-" + run).resolve("inputs"));
  }

  /** Returns everything in the folder of results but the journal and its lock, by name. */
  List<String> folders() throws IOException {
    try (var all = Files.walk(out)) {
      return all.map(path -> out.relativize(path).toString())
          .filter(name -> !name.isEmpty() && !name.startsWith(".watch"))
          .filter(name -> Path.of(name).getNameCount() == 2)
          .sorted()
          .toList();
    }
  }

  @Override
  public void say(String line) {
    said.add(line);
  }

  @Override
  public void detail(String line) {
    said.add("detail " + line);
  }

  /** Returns how many lines had some words in them. */
  long said(String words) {
    return said.stream().filter(line -> line.contains(words)).count();
  }
}
