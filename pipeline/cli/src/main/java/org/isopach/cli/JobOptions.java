package org.isopach.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.job.FrameOutputs;
import org.isopach.job.JobRequest;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** How scans are measured and where the results go. */
final class JobOptions extends RunOptions {
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

  /**
   * Returns the request.
   *
   * @throws ParameterException when the options make no sense or the run folder cannot be made
   */
  JobRequest request(List<Path> inputs, Path out) {
    int count = threads();
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
}
