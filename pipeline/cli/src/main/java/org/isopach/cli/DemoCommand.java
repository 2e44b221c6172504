package org.isopach.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.isopach.fixtures.dicom.NerveStudy;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.fixtures.phantom.TruthFile;
import org.isopach.job.BaselineChoice;
import org.isopach.job.FrameOutputs;
import org.isopach.job.JobRequest;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code isopach demo}. */
@Command(
    name = "demo",
    description = {
      "Writes an invented study of two eyes at two visits and runs the job on it, as 'isopach"
          + " compare' would; then one of the optic nerves of two eyes at five visits, and runs"
          + " 'isopach nerve' on it. No real patient is in them."
    },
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      ExitCodes.ALL,
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      ExitCodes.SOME,
      ExitCodes.NOTHING
    },
    footer = {"", Cautions.LINE})
final class DemoCommand implements Callable<Integer> {
  private static final int DRAWN_FRAMES = 2;

  /** What may be asked for by itself. */
  enum Part {
    MACULA,
    NERVE
  }

  @Spec private CommandSpec spec;
  @Mixin private TalkOptions talk;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      defaultValue = "isopach-demo",
      description =
          "Gets the folders study and results, nerve-study and nerve-results, and what is true of"
              + " the nerves, nerve-truth.json (default: ${DEFAULT-VALUE}).")
  private Path out;

  @Option(
      names = "--only",
      paramLabel = "PART",
      description =
          "macula or nerve: leave out the other one. Without it, --json prints a document for each.")
  private Part only;

  @Override
  public Integer call() throws Exception {
    if (Files.exists(out) && !Files.isDirectory(out)) {
      throw new ParameterException(
          spec.commandLine(), "--out '" + out + "' is a file; give a folder");
    }
    int macula = only == Part.NERVE ? 0 : macula();
    int nerve = only == Part.MACULA ? 0 : nerve();
    return macula == 0 ? nerve : macula;
  }

  private int macula() throws Exception {
    Path study = out.resolve("study");
    say("writing the invented study to " + study);
    PhantomStudy.wet(ScanPlan.typical()).write(study);
    JobRequest request =
        JobRequest.of(List.of(study), out.resolve("results"))
            .drawing(new FrameOutputs(false, DRAWN_FRAMES));
    return new JobRunner(spec, talk).run("demo", request.comparedWith(BaselineChoice.FIRST));
  }

  private int nerve() throws Exception {
    Path study = out.resolve("nerve-study");
    say("writing the invented study of the optic nerve to " + study);
    TruthFile.write(out.resolve("nerve-truth.json"), NerveStudy.standard().write(study));
    List<String> words = new ArrayList<>();
    words.add(study.toString());
    words.addAll(List.of("--out", out.resolve("nerve-results").toString()));
    say("isopach nerve " + String.join(" ", words));
    if (talk.json()) {
      words.add("--json");
    }
    if (talk.verbose()) {
      words.add("--verbose");
    }
    int code = spec.parent().subcommands().get("nerve").execute(words.toArray(String[]::new));
    say("its visits are compared by 'isopach compare " + study + " --out DIR', followed by");
    say("'isopach series " + study + " --out DIR'");
    return code;
  }

  private void say(String words) {
    spec.commandLine().getErr().println(words);
    spec.commandLine().getErr().flush();
  }
}
