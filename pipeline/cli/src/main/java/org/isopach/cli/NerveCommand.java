package org.isopach.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.ExitStatus;
import org.isopach.job.JobRequest;
import org.isopach.job.NerveJob;
import org.isopach.job.NerveRequest;
import org.isopach.job.NerveResult;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code isopach nerve}. */
@Command(
    name = "nerve",
    description =
        "Measures the optic nerve: the nerve fibre layer on a circle round the disc, from circle"
            + " scans and from volumes over the disc; the disc's opening and rim; the ganglion cell"
            + " layers of volumes over the macula. Compares with published reference groups.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      ExitCodes.ALL,
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      ExitCodes.SOME,
      NerveCommand.NO_NERVE
    },
    footer = {"", Cautions.LINE})
final class NerveCommand implements Callable<Integer> {
  static final String NO_NERVE =
      " 4:no scan of the optic nerve could be measured; ganglion cells of macula scans may have been";

  @Spec private CommandSpec spec;
  @Mixin private InputOptions inputs;
  @Mixin private RunOptions run;
  @Mixin private NerveOptions nerve;
  @Mixin private TalkOptions talk;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      required = true,
      description = "The run folder; made when missing. Its files are replaced.")
  private Path out;

  @Override
  public Integer call() throws Exception {
    NerveRequest asked = nerve.request();
    JobRequest request =
        NerveRequest.job(inputs.inputs(), out, run.lengths(), run.outputs(), run.threads());
    run.makeFolder(out);
    NerveJob job =
        new NerveJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), Software.current());
    NerveResult result;
    PrintWriter err = spec.commandLine().getErr();
    try (RunTalk listener = RunTalk.on(err, talk)) {
      result = job.run(request, asked, listener);
    }
    PrintWriter to = spec.commandLine().getOut();
    if (talk.json()) {
      NervePrinter.json(to, result);
    } else {
      new NervePrinter(to).print(result);
    }
    to.flush();
    ExitStatus status = result.job().status();
    err.println(
        status == ExitStatus.NOTHING_MEASURABLE
            ? "no scan of the optic nerve could be measured"
            : status.words());
    err.flush();
    return status.code();
  }
}
