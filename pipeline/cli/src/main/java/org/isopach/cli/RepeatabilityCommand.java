package org.isopach.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.DicomFolder;
import org.isopach.dicom.derive.OphthalmicThicknessMapWriter;
import org.isopach.dicom.write.DicomWriters;
import org.isopach.job.JobRequest;
import org.isopach.job.RepeatabilityJob;
import org.isopach.job.RepeatabilityRequest;
import org.isopach.job.RepeatabilityResult;
import org.isopach.report.Cautions;
import org.isopach.report.Software;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** {@code isopach repeatability}. */
@Command(
    name = "repeatability",
    description = "Measures every scan and how far repeated scans of one eye differ.",
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
final class RepeatabilityCommand implements Callable<Integer> {
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
      names = "--within-days",
      paramLabel = "N",
      defaultValue = "0",
      description =
          "Scans of an eye are repeats up to N calendar days after the first; 0 is the same day"
              + " (default: ${DEFAULT-VALUE}).")
  private int withinDays;

  @Option(
      names = "--plot-layer",
      paramLabel = "LAYER",
      split = ",",
      converter = LayerConverter.class,
      description = "Layers whose differences are plotted (default: the first one measured).")
  private List<Layer> plotLayers;

  @Option(
      names = "--plot-sector",
      paramLabel = "SECTOR",
      split = ",",
      defaultValue = "centre,total",
      description =
          "Sectors whose differences are plotted, by their names in the tables, or 'all'"
              + " (default: ${DEFAULT-VALUE}).")
  private List<String> plotSectors;

  @Override
  public Integer call() throws Exception {
    RepeatabilityRequest request = request(job.request(inputs.inputs(), out));
    PrintWriter words = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    RepeatabilityJob repeats =
        new RepeatabilityJob(
            DicomFolder.reader(),
            new OphthalmicThicknessMapWriter(DicomFolder.headers(), DicomWriters.partTen()),
            Software.current());
    RepeatabilityResult result;
    try (RunTalk listener = RunTalk.on(err, talk)) {
      result = repeats.run("repeatability", request, listener);
    }
    if (talk.json()) {
      ResultJson.print(words, result);
    } else {
      new RepeatabilityPrinter(words).print(result);
    }
    words.flush();
    err.println(result.job().status().words());
    err.flush();
    return result.job().status().code();
  }

  private RepeatabilityRequest request(JobRequest asked) {
    if (withinDays < 0) {
      throw wrong("--within-days must not be negative, was " + withinDays);
    }
    List<Layer> layers = plotLayers == null ? asked.layers().subList(0, 1) : plotLayers;
    for (Layer layer : layers) {
      if (!asked.layers().contains(layer)) {
        throw wrong("--plot-layer " + layer.name() + " is not measured; name it in --layer too");
      }
    }
    return new RepeatabilityRequest(
        asked, withinDays, new LinkedHashSet<>(layers), sectors(asked.grid()));
  }

  private Set<String> sectors(SectorGrid grid) {
    List<String> known =
        Stream.concat(grid.sectors().stream().map(Sector::name), Stream.of(SectorGrid.TOTAL))
            .toList();
    if (plotSectors.equals(List.of("all"))) {
      return new LinkedHashSet<>(known);
    }
    for (String sector : plotSectors) {
      if (!known.contains(sector)) {
        throw wrong(
            "'" + sector + "' is not a sector; there are " + String.join(", ", known) + ", all");
      }
    }
    return new LinkedHashSet<>(plotSectors);
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
