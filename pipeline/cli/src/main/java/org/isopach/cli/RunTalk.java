package org.isopach.cli;

import java.io.PrintWriter;
import java.util.Locale;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.finding.FindingKind.Gravity;
import org.isopach.job.JobListener;

/** Tells on standard error how a run goes on: a bar on a terminal, plain lines elsewhere. */
final class RunTalk implements JobListener, AutoCloseable {
  /** Set to true by the launcher when standard error is a terminal. */
  private static final String TERMINAL_PROPERTY = "isopach.terminal";

  private final PrintWriter err;
  private final boolean verbose;
  private final boolean terminal;
  private ProgressBar bar;
  private int objects;
  private int done;
  private int skipped;
  private int uncheckedCircles;

  private RunTalk(PrintWriter err, boolean verbose, boolean terminal) {
    this.err = err;
    this.verbose = verbose;
    this.terminal = terminal;
  }

  static RunTalk on(PrintWriter err, TalkOptions talk) {
    return new RunTalk(
        err, talk.verbose(), Boolean.getBoolean(TERMINAL_PROPERTY) && !talk.verbose());
  }

  @Override
  public void found(int filesSeen, int objectCount) {
    objects = objectCount;
    if (skipped > 0 && !verbose) {
      say(skipped + " files skipped; run.json lists them, -v names them here");
    }
    say(filesSeen + " files read, " + objectCount + " scans and maps to measure");
    if (terminal && objectCount > 0) {
      bar =
          new ProgressBarBuilder()
              .setTaskName("measuring")
              .setInitialMax(objectCount)
              .setStyle(ProgressBarStyle.ASCII)
              .build();
    }
  }

  @Override
  public void finished(String location, long millis) {
    done++;
    if (bar == null) {
      say(String.format(Locale.ROOT, "%d/%d %s: %.1f s", done, objects, location, millis / 1000.0));
    } else {
      bar.step();
    }
  }

  @Override
  public void finding(Finding finding) {
    Gravity gravity = finding.kind().gravity();
    if (gravity == Gravity.SKIPPED) {
      skipped++;
      if (verbose) {
        say("skipped: " + finding.sentence());
      }
    } else if (finding.kind() == FindingKind.CIRCLE_NOT_CHECKED && !verbose) {
      sayOnce(finding);
    } else {
      say(word(gravity) + finding.sentence());
    }
  }

  /** It holds for every circle without a volume: the results say of which, one by one. */
  private void sayOnce(Finding finding) {
    if (uncheckedCircles++ == 0) {
      say(word(finding.kind().gravity()) + finding.sentence() + "; of others run.json and -v tell");
    }
  }

  @Override
  public void close() {
    if (bar != null) {
      bar.close();
    }
  }

  private static String word(Gravity gravity) {
    return switch (gravity) {
      case NOTE, SKIPPED -> "note: ";
      case PARTLY_MEASURED -> "partly measured: ";
      case NOT_MEASURED -> "not measured: ";
    };
  }

  private void say(String line) {
    err.println(PlainText.of(line));
    err.flush();
  }
}
