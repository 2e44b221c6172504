package org.isopach.cli;

import java.io.PrintWriter;
import org.isopach.job.watch.WatchList;
import org.isopach.report.Cautions;

/** Prints what a watcher has done and will do, a few lines for each study or patient. */
final class WatchPrinter {
  private final PrintWriter out;

  WatchPrinter(PrintWriter out) {
    this.out = out;
  }

  void print(WatchList list) {
    for (WatchList.Unit unit : list.units()) {
      String failures = unit.failures() == 0 ? "" : " (" + unit.failures() + " times so far)";
      line(unit.state().words() + failures + ": " + unit.key().words());
      if (!unit.reason().isEmpty()) {
        line("  why: " + unit.reason());
      }
      if (!unit.folder().isEmpty()) {
        line("  results: " + unit.folder());
        line("  " + unit.ends());
      }
    }
    list.files().forEach(this::line);
    for (WatchList.State state : WatchList.State.values()) {
      long count = list.units().stream().filter(unit -> unit.state() == state).count();
      if (count > 0) {
        line(count + " " + state.words());
      }
    }
    line(list.others() + " files of other kinds left out");
    out.println(Cautions.LINE);
    out.flush();
  }

  private void line(String text) {
    out.println(PlainText.of(text));
  }
}
