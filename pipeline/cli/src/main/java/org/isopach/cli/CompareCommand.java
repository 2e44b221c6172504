package org.isopach.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.isopach.job.BaselineChoice;
import org.isopach.job.NoiseChoice;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
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

  @Option(
      names = "--repeats",
      paramLabel = "DIR",
      description =
          "Scans repeated on one day, of any eyes, to measure the noise of a change from (default:"
              + " those among the inputs, then published figures).")
  private Path repeats;

  @Option(
      names = "--published-noise",
      paramLabel = "EYES",
      defaultValue = "normal",
      description =
          "Whose published noise is used where no repeats tell: normal, dme, dme-not-aligned,"
              + " dmo-not-central or namd (default: ${DEFAULT-VALUE}).")
  private String population;

  @Override
  public Integer call() throws Exception {
    BaselineChoice choice = BaselineChoice.of(baseline).withNoise(noise());
    return new JobRunner(spec, talk)
        .run("compare", job.request(inputs.inputs(), out).comparedWith(choice));
  }

  private NoiseChoice noise() {
    if (!NoiseChoice.populations().contains(population)) {
      throw new ParameterException(
          spec.commandLine(),
          "--published-noise knows "
              + String.join(", ", NoiseChoice.populations())
              + ", not '"
              + population
              + "'");
    }
    if (repeats != null && !Files.exists(repeats)) {
      throw new ParameterException(
          spec.commandLine(), "--repeats '" + repeats + "' does not exist");
    }
    return new NoiseChoice(Optional.ofNullable(repeats), population);
  }
}
