package org.isopach.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code isopach measure}. */
@Command(
    name = "measure",
    description = "Measures every scan: tables, maps as pictures, maps as DICOM objects.",
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
final class MeasureCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private InputOptions inputs;
  @Mixin private JobOptions job;
  @Mixin private TalkOptions talk;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      required = true,
      description = "The run folder; made when missing. Its files are replaced.")
  private Path out;

  @Override
  public Integer call() throws Exception {
    return new JobRunner(spec, talk).run("measure", job.request(inputs.inputs(), out));
  }
}
