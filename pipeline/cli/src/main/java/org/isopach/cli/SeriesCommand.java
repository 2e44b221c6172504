package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.SeriesJob;
import org.isopach.job.SeriesRequest;
import org.isopach.job.SeriesResult;
import org.isopach.job.TreatmentList;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import org.isopach.report.series.AgeSlopes;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code isopach series}. */
@Command(
    name = "series",
    description =
        "Measures every scan, puts every visit of an eye on its first one, and gives the course of"
            + " each layer and sector over all visits: values, slopes, what followed treatments.",
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
final class SeriesCommand implements Callable<Integer> {
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
      names = "--treatments",
      paramLabel = "FILE",
      description =
          "A table of treatments: UTF-8, commas, the first line names the columns patient_id, eye"
              + " (R, L or both), date (such as 2026-02-28) and what (free text).")
  private Path treatments;

  @Option(
      names = "--loading-days",
      paramLabel = "N",
      defaultValue = "112",
      description =
          "Days from the first treatment that count as loading phase (default: ${DEFAULT-VALUE}).")
  private int loadingDays;

  @Option(
      names = "--dry-floor",
      paramLabel = "NL",
      defaultValue = "5",
      description =
          "Fluid in the retina and under it, in nL within the grid, up to which an eye counts as"
              + " dry (default: ${DEFAULT-VALUE}).")
  private double dryFloor;

  @Option(
      names = "--ageing",
      description =
          "Also give slopes less the expected ageing, where a slope of healthy eyes is published.")
  private boolean ageing;

  @Override
  public Integer call() throws Exception {
    SeriesRules rules = rules();
    Optional<TreatmentList> list = list();
    SeriesRequest request = new SeriesRequest(job.request(inputs.inputs(), out), rules, list);
    SeriesJob run =
        new SeriesJob(DicomFolder.reader(), DicomWriters.thicknessMaps(), Software.current());
    SeriesResult result;
    try (RunTalk listener = RunTalk.on(spec.commandLine().getErr(), talk)) {
      result = run.run(request, listener);
    }
    if (talk.json()) {
      SeriesPrinter.json(spec.commandLine().getOut(), result);
    } else {
      new SeriesPrinter(spec.commandLine().getOut()).print(result, request.job().pictured());
    }
    spec.commandLine().getOut().flush();
    spec.commandLine().getErr().println(result.job().status().words());
    spec.commandLine().getErr().flush();
    return result.job().status().code();
  }

  private SeriesRules rules() {
    if (loadingDays < 1) {
      throw wrong("--loading-days must be at least 1, was " + loadingDays);
    }
    if (!(dryFloor >= 0) || Double.isInfinite(dryFloor)) {
      throw wrong("--dry-floor must be 0 or more nL, was " + dryFloor);
    }
    return new SeriesRules(loadingDays, dryFloor, ageing ? AgeSlopes.published() : List.of());
  }

  private Optional<TreatmentList> list() {
    if (treatments == null) {
      return Optional.empty();
    }
    try {
      return Optional.of(TreatmentList.read(treatments));
    } catch (IOException e) {
      String why = e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
      throw wrong("--treatments '" + treatments + "' cannot be read: " + why);
    }
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
