package org.isopach.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.CrossCheckJob;
import org.isopach.job.CrossCheckRequest;
import org.isopach.job.CrossCheckRequest.ChangeMeaning;
import org.isopach.job.CrossCheckRequest.SegmentMeaning;
import org.isopach.job.CrossCheckResult;
import org.isopach.job.JobRequest;
import org.isopach.job.Output;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code isopach crosscheck}. */
@Command(
    name = "crosscheck",
    description =
        "Measures every scan and sets beside it what objects among the inputs say was found in the"
            + " same scan, whoever wrote them: grid reports, thickness maps, parametric maps, height"
            + " maps, segmentations. Values of different definitions are shown, never subtracted.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      " 0:every scan was measured and every object compared at least in part",
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      " 3:some scans were not measured or some objects not compared; each is named",
      ExitCodes.NOTHING
    },
    footer = {"", Cautions.LINE})
final class CrosscheckCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private InputOptions inputs;
  @Mixin private JobOptions job;
  @Mixin private TalkOptions talk;

  @Option(
      names = "--out",
      paramLabel = "DIR",
      required = true,
      description =
          "The run folder; made when missing. Its files are replaced. No object is written there.")
  private Path out;

  @Option(
      names = "--segment",
      paramLabel = "SCHEME:CODE=KIND",
      split = ",",
      converter = SegmentConverter.class,
      description =
          "What a code of another system's segments means: intraretinal-fluid, subretinal-fluid,"
              + " rpe-elevation or hyperreflective-material. Segments of other codes are named and"
              + " not compared.")
  private List<SegmentMeaning> segments;

  @Option(
      names = "--change",
      paramLabel = "SCHEME:CODE=LAYER",
      split = ",",
      converter = ChangeConverter.class,
      description =
          "What a code of another system's parametric maps is the change of, later scan less"
              + " earlier. Maps of other codes are named and not compared.")
  private List<ChangeMeaning> changes;

  @Override
  public Integer call() throws Exception {
    CrossCheckJob run =
        new CrossCheckJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), Software.current());
    CrossCheckResult result;
    PrintWriter err = spec.commandLine().getErr();
    CrossCheckRequest request = request(job.request(inputs.inputs(), out));
    try (RunTalk listener = RunTalk.on(err, talk)) {
      result = run.run(request, listener);
    }
    PrintWriter words = spec.commandLine().getOut();
    if (talk.json()) {
      CrosscheckPrinter.json(words, result);
    } else {
      new CrosscheckPrinter(words).print(result);
    }
    words.flush();
    err.println(result.job().status().words());
    err.flush();
    return result.job().status().code();
  }

  private CrossCheckRequest request(JobRequest asked) {
    Set<Output> outputs = EnumSet.noneOf(Output.class);
    outputs.addAll(asked.outputs());
    outputs.remove(Output.OBJECTS);
    return new CrossCheckRequest(
        asked.writing(outputs),
        segments == null ? List.of() : segments,
        changes == null ? List.of() : changes);
  }
}
