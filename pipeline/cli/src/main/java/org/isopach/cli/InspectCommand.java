package org.isopach.cli;

import java.util.concurrent.Callable;
import org.isopach.dicom.DicomFolder;
import org.isopach.job.FolderInspection;
import org.isopach.report.Cautions;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code isopach inspect}. */
@Command(
    name = "inspect",
    description = "Lists what is in a folder, what can be measured in it, and what cannot and why.",
    mixinStandardHelpOptions = true,
    exitCodeListHeading = ExitCodes.HEADING,
    exitCodeList = {
      " 0:everything can be measured, as far as can be told without decoding",
      ExitCodes.FAULT,
      ExitCodes.USAGE,
      " 3:some inputs cannot be measured; each is named",
      " 4:nothing can be measured"
    },
    footer = {"", Cautions.LINE})
final class InspectCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private InputOptions inputs;
  @Mixin private TalkOptions talk;

  @Override
  public Integer call() throws Exception {
    FolderInspection found = FolderInspection.of(DicomFolder.reader().read(inputs.inputs()));
    if (talk.json()) {
      ResultJson.print(spec.commandLine().getOut(), ResultJson.JSON.valueToTree(found));
    } else {
      new InspectionPrinter(spec.commandLine().getOut(), talk.verbose()).print(found);
    }
    spec.commandLine().getOut().flush();
    return found.outlook().code();
  }
}
