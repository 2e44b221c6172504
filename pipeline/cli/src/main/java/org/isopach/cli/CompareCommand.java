package org.isopach.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.isopach.job.BaselineChoice;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code isopach compare}. */
@Command(
    name = "compare",
    description = "Measures every scan and compares the visits of each eye with its baseline.",
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
final class CompareCommand implements Callable<Integer> {
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

  @Option(
      names = "--baseline",
      paramLabel = "VISIT",
      defaultValue = BaselineChoice.FIRST_WORD,
      description =
          "first, or the study instance UID of the visit to compare with"
              + " (default: ${DEFAULT-VALUE}).")
  private String baseline;

  @Override
  public Integer call() throws Exception {
    return new JobRunner(spec, talk)
        .run(
            "compare", job.request(inputs.inputs(), out).comparedWith(BaselineChoice.of(baseline)));
  }
}
