package org.isopach.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.isopach.job.FrameOutputs;
import org.isopach.job.JobRequest;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;

/** How scans are measured and where the results go. */
final class JobOptions extends RunOptions {
  @Mixin private LayerOptions measured;

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
        measured.layers(),
        measured.pictured(),
        measured.grid(),
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
