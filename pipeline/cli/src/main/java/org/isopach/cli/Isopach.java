package org.isopach.cli;

import org.isopach.report.Cautions;
import org.isopach.report.Software;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The program {@code isopach}. */
@Command(
    name = "isopach",
    description = "Measures retinal thickness in DICOM tomography: maps, grid tables, change.",
    mixinStandardHelpOptions = true,
    versionProvider = Isopach.Version.class,
    subcommands = {
      DemoCommand.class,
      MeasureCommand.class,
      CompareCommand.class,
      SeriesCommand.class,
      NerveCommand.class,
      AsymmetryCommand.class,
      RepeatabilityCommand.class,
      CrosscheckCommand.class,
      InspectCommand.class,
      DeidentifyCommand.class,
      WrapCommand.class,
      ReceiveCommand.class,
      SendCommand.class,
      FetchCommand.class,
      PostCommand.class,
      WatchCommand.class,
    },
    footer = {"", Cautions.LINE})
public final class Isopach implements Runnable {
  @Spec private CommandSpec spec;

  /** Runs the program and ends the process with its exit code. */
  public static void main(String[] args) {
    System.setProperty("java.awt.headless", "true");
    System.exit(commandLine().execute(args));
  }

  /** Returns the program, ready to be executed; for tests and for the main method. */
  static CommandLine commandLine() {
    CommandLine line = new CommandLine(new Isopach());
    line.setExecutionExceptionHandler(new FailureHandler());
    line.setExecutionStrategy(
        parsed -> {
          TalkOptions.prepareLogging(parsed);
          return new CommandLine.RunLast().execute(parsed);
        });
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setUsageHelpWidth(94);
    line.setUsageHelpAutoWidth(false);
    return line;
  }

  @Override
  public void run() {
    throw new ParameterException(
        spec.commandLine(), "a command is missing; 'isopach --help' lists them");
  }

  /** Says name and version. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {Software.current().title()};
    }
  }
}
