package org.isopach.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.isopach.fixtures.dicom.PhantomStudy;
import org.isopach.fixtures.phantom.ScanPlan;
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
          + " compare' would. No real patient is in it."
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

  @Spec private CommandSpec spec;
  @Mixin private TalkOptions talk;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      defaultValue = "isopach-demo",
      description = "Gets the folders study and results (default: ${DEFAULT-VALUE}).")
  private Path out;

  @Override
  public Integer call() throws Exception {
    if (Files.exists(out) && !Files.isDirectory(out)) {
      throw new ParameterException(
          spec.commandLine(), "--out '" + out + "' is a file; give a folder");
    }
    Path study = out.resolve("study");
    Path results = out.resolve("results");
    spec.commandLine().getErr().println("writing the invented study to " + study);
    spec.commandLine().getErr().flush();
    PhantomStudy.wet(ScanPlan.typical()).write(study);
    JobRequest request =
        JobRequest.of(List.of(study), results).drawing(new FrameOutputs(false, DRAWN_FRAMES));
    return new JobRunner(spec, talk).run("demo", request.comparedWith(BaselineChoice.FIRST));
  }
}
