package org.isopach.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.OcularMagnification;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.job.AxialLengths;
import org.isopach.job.FrameOutputs;
import org.isopach.job.JobRequest;
import org.isopach.job.Output;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;
import picocli.CommandLine.Spec.Target;

/** How scans are measured and where the results go. */
final class JobOptions {
  @Spec(Target.MIXEE)
  private CommandSpec spec;

  @Option(
      names = "--layer",
      paramLabel = "LAYER",
      split = ",",
      converter = LayerConverter.class,
      description =
          "Layers to measure, draw and write as objects, by short or full name: ILM-BM, ILM-RPE,"
              + " ILM-EZ, neurosensory, GCC, RNFL, GCL+IPL, GCL, IPL, INL, OPL+ONL, OPL, ONL,"
              + " photoreceptors, ELM-BM, RPE-complex, RPE-BM, choroid (default: all are measured;"
              + " the first three are drawn and written).")
  private List<Layer> layers;

  @Option(
      names = "--grid",
      paramLabel = "GRID",
      converter = GridConverter.class,
      defaultValue = "etdrs-1-3-6",
      description =
          "etdrs-1-3-6 or etdrs-1-2.22-3.45, named by the circles' diameters in mm"
              + " (default: ${DEFAULT-VALUE}).")
  private SectorGrid grid;

  @Option(
      names = "--axial-length",
      paramLabel = "EYE=MM",
      split = ",",
      converter = {LateralityConverter.class, AxialLengthConverter.class},
      description = "Axial lengths such as R=25.10,L=24.85; corrects lengths on the fundus.")
  private Map<Laterality, OcularMagnification> axialLengths;

  @Option(
      names = "--assumed-axial-length",
      paramLabel = "MM",
      converter = AxialLengthConverter.class,
      defaultValue = "24.0",
      description =
          "The length the instrument reckoned with, used with --axial-length where an"
              + " object does not state it (default: ${DEFAULT-VALUE}).")
  private OcularMagnification assumed;

  @Option(
      names = "--skip",
      paramLabel = "WHAT",
      split = ",",
      description = "Do not write ${COMPLETION-CANDIDATES}.")
  private List<Output> skipped;

  @Option(
      names = "--regions",
      description = "Write a label image of every frame searched: regions/OBJECT/FRAME.png.")
  private boolean regions;

  @Option(
      names = "--overlays",
      description =
          "Draw frames with what was found in them: the one through the centre and those with"
              + " the largest regions.")
  private boolean overlays;

  @Option(
      names = "--overlay-frames",
      paramLabel = "N",
      converter = FrameCountConverter.class,
      description = "Draw at most N frames of a scan, or 'all' (default: 5); implies --overlays.")
  private Integer overlayFrames;

  @Option(
      names = "--threads",
      paramLabel = "N",
      description = "Frames worked on at a time (default: the number of processors).")
  private Integer threads;

  /**
   * Returns the request.
   *
   * @throws ParameterException when the options make no sense or the run folder cannot be made
   */
  JobRequest request(List<Path> inputs, Path out) {
    int count = threads == null ? Runtime.getRuntime().availableProcessors() : threads;
    if (count < 1) {
      throw wrong("--threads must be at least 1, was " + count);
    }
    makeFolder(out);
    return new JobRequest(
        inputs,
        out,
        layers == null ? LayerCatalogue.ALL : new ArrayList<>(new LinkedHashSet<>(layers)),
        new LinkedHashSet<>(layers == null ? LayerCatalogue.WHOLE_RETINA : layers),
        grid,
        lengths(),
        Optional.empty(),
        outputs(),
        frames(),
        count);
  }

  private FrameOutputs frames() {
    if (overlayFrames != null) {
      return new FrameOutputs(regions, overlayFrames);
    }
    return new FrameOutputs(regions, overlays ? FrameOutputs.USUAL_OVERLAYS : 0);
  }

  private AxialLengths lengths() {
    Map<Laterality, OcularMagnification> given = new EnumMap<>(Laterality.class);
    if (axialLengths != null) {
      given.putAll(axialLengths);
    }
    return new AxialLengths(given, assumed);
  }

  private Set<Output> outputs() {
    Set<Output> wanted = EnumSet.allOf(Output.class);
    if (skipped != null) {
      skipped.forEach(wanted::remove);
    }
    return wanted;
  }

  private void makeFolder(Path out) {
    if (Files.exists(out) && !Files.isDirectory(out)) {
      throw wrong("--out '" + out + "' is a file; give a folder");
    }
    try {
      Files.createDirectories(out);
    } catch (IOException e) {
      throw wrong("--out '" + out + "' cannot be made: " + e.getMessage());
    }
    if (!Files.isWritable(out)) {
      throw wrong("--out '" + out + "' cannot be written to; give another folder");
    }
  }

  private ParameterException wrong(String message) {
    return new ParameterException(spec.commandLine(), message);
  }
}
