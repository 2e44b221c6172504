package org.isopach.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.isopach.fixtures.wrap.ImageSeries;
import org.isopach.fixtures.wrap.WrapException;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code isopach wrap}. */
@Command(
    name = "wrap",
    description = "Wraps a folder of PNG frames and a geometry file into one tomography object.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {" 0:the object was written", ExitCodes.FAULT, ExitCodes.USAGE},
    footer = {"", Cautions.LINE})
final class WrapCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private TalkOptions talk;

  @Parameters(
      paramLabel = "FRAMES",
      description = "Folder with one grey PNG for each frame, in the order of their names.")
  private Path frames;

  @Option(
      names = "--geometry",
      paramLabel = "FILE",
      required = true,
      description = "JSON file that says whose eye it is and where the frames lie.")
  private Path geometry;

  @Option(
      names = "--out",
      paramLabel = "FILE",
      required = true,
      description = "The DICOM file to make or replace.")
  private Path out;

  @Override
  public Integer call() throws Exception {
    if (!Files.isDirectory(frames)) {
      throw new ParameterException(
          spec.commandLine(), "'" + frames + "' is not a folder of PNG frames");
    }
    Path folder = out.toAbsolutePath().getParent();
    Files.createDirectories(folder);
    try {
      ImageSeries.wrap(frames, geometry, out);
    } catch (WrapException e) {
      throw new ParameterException(spec.commandLine(), e.getMessage(), e);
    }
    if (talk.json()) {
      ResultJson.print(
          spec.commandLine().getOut(),
          ResultJson.JSON.createObjectNode().put("file", out.toString()));
    } else {
      spec.commandLine().getOut().println("wrote " + out);
    }
    spec.commandLine().getOut().flush();
    return 0;
  }
}
