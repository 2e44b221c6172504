package org.isopach.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.AsymmetryJob;
import org.isopach.job.AsymmetryResult;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code isopach asymmetry}. */
@Command(
    name = "asymmetry",
    description =
        "Measures every scan and lays the two eyes of each patient's visit on one another, the"
            + " left one mirrored, fovea on fovea: right minus left.",
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
final class AsymmetryCommand implements Callable<Integer> {
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
    AsymmetryJob run =
        new AsymmetryJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), Software.current());
    AsymmetryResult result;
    PrintWriter err = spec.commandLine().getErr();
    try (RunTalk listener = RunTalk.on(err, talk)) {
      result = run.run(job.request(inputs.inputs(), out), listener);
    }
    if (talk.json()) {
      AsymmetryPrinter.json(spec.commandLine().getOut(), result);
    } else {
      new AsymmetryPrinter(spec.commandLine().getOut()).print(result);
    }
    spec.commandLine().getOut().flush();
    err.println(result.job().status().words());
    err.flush();
    return result.job().status().code();
  }
}
