package org.isopach.job;

import java.nio.file.Path;
import java.util.Collections;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;

/**
 * What is to be done.
 *
 * @param inputs files and folders to read; at least one
 * @param out the run folder; made when missing
 * @param layers the thicknesses to measure, at least one; those whose boundaries a scan does not
 *     have are left out
 * @param pictured the layers, of those, whose maps are drawn and written as objects
 * @param grid the sectors
 * @param axialLengths the eyes' lengths, if lengths on the fundus are to be corrected
 * @param baseline what visits are compared with; empty for no comparison
 * @param outputs what is written beside the tables
 * @param frames what is written of single frames
 * @param threads number of frames worked on at a time, at least 1
 */
public record JobRequest(
    List<Path> inputs,
    Path out,
    List<Layer> layers,
    Set<Layer> pictured,
    SectorGrid grid,
    AxialLengths axialLengths,
    Optional<BaselineChoice> baseline,
    Set<Output> outputs,
    FrameOutputs frames,
    int threads) {

  public JobRequest {
    inputs = List.copyOf(inputs);
    Objects.requireNonNull(out, "out");
    layers = List.copyOf(layers);
    pictured = Collections.unmodifiableSet(new LinkedHashSet<>(pictured));
    Objects.requireNonNull(grid, "grid");
    Objects.requireNonNull(frames, "frames");
    Objects.requireNonNull(axialLengths, "axialLengths");
    Objects.requireNonNull(baseline, "baseline");
    Set<Output> copy = EnumSet.noneOf(Output.class);
    copy.addAll(outputs);
    outputs = Collections.unmodifiableSet(copy);
    if (inputs.isEmpty() || layers.isEmpty()) {
      throw new IllegalArgumentException("a job needs an input and a layer");
    }
    if (threads < 1) {
      throw new IllegalArgumentException("threads must be at least 1, was " + threads);
    }
  }

  /**
   * Returns a request for all layers, pictures and objects of the whole retina, the 1/3/6 mm grid,
   * the usual outputs but those of single frames, all cores.
   */
  public static JobRequest of(List<Path> inputs, Path out) {
    return new JobRequest(
        inputs,
        out,
        LayerCatalogue.ALL,
        Set.copyOf(LayerCatalogue.WHOLE_RETINA),
        EtdrsGrids.ETDRS_1_3_6,
        AxialLengths.NONE,
        Optional.empty(),
        Output.USUAL,
        FrameOutputs.NONE,
        Runtime.getRuntime().availableProcessors());
  }

  /** Returns this request with visits compared. */
  public JobRequest comparedWith(BaselineChoice choice) {
    return new JobRequest(
        inputs,
        out,
        layers,
        pictured,
        grid,
        axialLengths,
        Optional.of(choice),
        outputs,
        frames,
        threads);
  }

  /** Returns this request for other inputs and another folder. */
  public JobRequest at(List<Path> otherInputs, Path otherOut) {
    return new JobRequest(
        otherInputs,
        otherOut,
        layers,
        pictured,
        grid,
        axialLengths,
        baseline,
        outputs,
        frames,
        threads);
  }

  /** Returns this request with another number of threads. */
  public JobRequest onThreads(int count) {
    return new JobRequest(
        inputs, out, layers, pictured, grid, axialLengths, baseline, outputs, frames, count);
  }

  /** Returns this request with other outputs beside the tables. */
  public JobRequest writing(Set<Output> wanted) {
    return new JobRequest(
        inputs, out, layers, pictured, grid, axialLengths, baseline, wanted, frames, threads);
  }

  /** Returns this request with other outputs of single frames. */
  public JobRequest drawing(FrameOutputs wanted) {
    return new JobRequest(
        inputs, out, layers, pictured, grid, axialLengths, baseline, outputs, wanted, threads);
  }
}
