package org.isopach.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.isopach.job.ExitStatus;
import org.isopach.job.watch.WatchList;
import org.isopach.job.watch.WatchSettings;
import org.isopach.job.watch.WatchTalk;
import org.isopach.job.watch.WatchTime;
import org.isopach.job.watch.Watcher;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code isopach watch}. */
@Command(
    name = "watch",
    description =
        "Watches folders until it is stopped, and measures each study that comes, once, into a"
            + " folder of its own. The watched folders are only read.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      " 0:with --once: everything new was measured, or nothing was new; single sectors may be"
          + " refused",
      " 1:the program failed, for example on a full disk; call it again to go on",
      ExitCodes.USAGE,
      " 3:with --once: some inputs were not measured, or are waited for; each is named",
      " 4:with --once: nothing of what was new could be measured",
      " 130, 143:it was stopped; call it again to go on"
    },
    footer = {"", Cautions.LINE})
final class WatchCommand implements Callable<Integer> {
  private static final long LONGEST_END_SECONDS = 30;

  @Spec private CommandSpec spec;
  @Mixin private WatchOptions options;

  @Option(
      names = "--list",
      description = "Print what was and will be worked on, and end; FOLDER is not needed.")
  private boolean list;

  @Option(
      names = {"-v", "--verbose"},
      description = "Say more on standard error, also about files of other kinds.")
  private boolean verbose;

  @Override
  public Integer call() throws Exception {
    PrintWriter out = spec.commandLine().getOut();
    if (list) {
      new WatchPrinter(out).print(WatchList.of(options.results()));
      return ExitStatus.ALL_MEASURED.code();
    }
    WatchSettings settings = options.settings();
    Lines lines = new Lines(new NetworkLog(spec.commandLine().getErr(), verbose), verbose);
    Watcher watcher = new Watcher(settings, options.work(), lines, WatchTime.system());
    for (Path folder : settings.folders()) {
      out.println("watching " + PlainText.of(folder.toString()));
    }
    out.println("results go to " + PlainText.of(settings.results().toString()));
    out.println(Cautions.LINE);
    out.flush();
    return watch(watcher);
  }

  private int watch(Watcher watcher) throws IOException {
    CountDownLatch ended = new CountDownLatch(1);
    Thread stop = new Thread(() -> stop(watcher, ended), "stop");
    Runtime.getRuntime().addShutdownHook(stop);
    try {
      return watcher.run(options.again()).code();
    } catch (IllegalArgumentException e) {
      throw new ParameterException(spec.commandLine(), e.getMessage(), e);
    } finally {
      ended.countDown();
      forget(stop);
    }
  }

  private static void stop(Watcher watcher, CountDownLatch ended) {
    watcher.stop();
    try {
      ended.await(LONGEST_END_SECONDS, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private static void forget(Thread stop) {
    try {
      Runtime.getRuntime().removeShutdownHook(stop);
    } catch (IllegalStateException e) {
      return; // the process is ending: the hook has done its work
    }
  }

  /** Prints lines with their time. */
  private record Lines(NetworkLog log, boolean verbose) implements WatchTalk {
    @Override
    public void say(String line) {
      log.say(line);
    }

    @Override
    public void detail(String line) {
      if (verbose) {
        log.say(line);
      }
    }
  }
}
