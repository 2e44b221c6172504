package org.isopach.job.watch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind.Gravity;

/**
 * What a folder of results knows of its watched folders; read from the journal, also while a
 * watcher works.
 *
 * @param units what was and will be worked on, by patient and study
 * @param files files that are waited for or left out though they should be measured, in sentences
 * @param others number of files of other kinds, left out
 */
public record WatchList(List<Unit> units, List<String> files, int others) {
  /** How far a unit is. */
  public enum State {
    WAITING("waiting"),
    NO_SCAN("no scan yet"),
    BEGUN("begun"),
    FAILED("failed, is tried again"),
    PARKED("parked"),
    DONE("done");

    private final String words;

    State(String words) {
      this.words = words;
    }

    /** Returns it in words. */
    public String words() {
      return words;
    }
  }

  /**
   * One unit.
   *
   * @param failures how often work on its present contents failed
   * @param ends how the jobs of its latest results ended; empty without results
   * @param folder its latest results; empty without
   * @param reason why it failed or was parked; empty when it did not
   */
  public record Unit(
      UnitKey key, State state, int failures, String ends, String folder, String reason) {}

  public WatchList {
    units = List.copyOf(units);
    files = List.copyOf(files);
  }

  /**
   * Reads the list of a folder of results.
   *
   * @throws IOException when no watcher ever worked on it, or its journal cannot be read
   */
  public static WatchList of(Path results) throws IOException {
    Path journal = WatchLog.journal(results);
    if (!Files.exists(journal)) {
      throw new IOException("no watcher has worked on " + results);
    }
    WatchState state = new WatchState();
    WatchJournal.replay(journal, state::apply);
    Map<UnitKey, PendingUnit> pending = PendingUnit.among(state.files(), state);
    pending.keySet().forEach(state::unit);
    List<Unit> units = new ArrayList<>();
    state.units().forEach((key, record) -> units.add(unit(key, record, pending.get(key), results)));
    List<String> files = new ArrayList<>();
    int others = 0;
    for (Map.Entry<Path, WatchedFile> one : state.files().entrySet()) {
      FileVerdict verdict = one.getValue().verdict().orElseThrow();
      String subject = one.getKey().toString();
      if (verdict instanceof FileVerdict.Waiting w) {
        files.add("waiting: " + new Finding(w.kind(), subject, w.detail()).sentence());
      } else if (verdict instanceof FileVerdict.LeftOut out) {
        if (out.kind().gravity() == Gravity.SKIPPED) {
          others++;
        } else {
          files.add("left out: " + new Finding(out.kind(), subject, out.detail()).sentence());
        }
      }
    }
    return new WatchList(units, files, others);
  }

  private static Unit unit(UnitKey key, UnitRecord record, PendingUnit pending, Path results) {
    int failures = pending == null ? 0 : record.failures(pending.contents());
    String folder =
        record.lastResults() == 0
            ? ""
            : new ResultFolders(results).place(record.name(), record.lastResults()).toString();
    State state = state(record, pending, failures);
    boolean failed = state == State.FAILED || state == State.PARKED;
    return new Unit(key, state, failures, record.ends(), folder, failed ? record.reason() : "");
  }

  private static State state(UnitRecord record, PendingUnit pending, int failures) {
    if (pending == null) {
      return record.parked() ? State.PARKED : State.DONE;
    }
    if (record.open()) {
      return State.BEGUN;
    }
    if (failures > 0) {
      return State.FAILED;
    }
    return pending.scan() ? State.WAITING : State.NO_SCAN;
  }
}
