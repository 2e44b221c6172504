package org.isopach.job;

import java.nio.file.Path;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;

/**
 * What is to be done.
 *
 * @param inputs files and folders to read; at least one
 * @param out the run folder; made when missing
 * @param layers the thicknesses to measure, at least one
 * @param grid the sectors
 * @param axialLengths the eyes' lengths, if lengths on the fundus are to be corrected
 * @param baseline what visits are compared with; empty for no comparison
 * @param outputs what is written beside the tables
 * @param threads number of frames worked on at a time, at least 1
 */
public record JobRequest(
    List<Path> inputs,
    Path out,
    List<Layer> layers,
    SectorGrid grid,
    AxialLengths axialLengths,
    Optional<BaselineChoice> baseline,
    Set<Output> outputs,
    int threads) {
  /** The three whole-retina thicknesses. */
  public static final List<Layer> ALL_LAYERS = List.of(Layer.ILM_BM, Layer.ILM_RPE, Layer.ILM_EZ);

  public JobRequest {
    inputs = List.copyOf(inputs);
    Objects.requireNonNull(out, "out");
    layers = List.copyOf(layers);
    Objects.requireNonNull(grid, "grid");
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

  /** Returns a request for everything: all layers, the 1/3/6 mm grid, all outputs, all cores. */
  public static JobRequest of(List<Path> inputs, Path out) {
    return new JobRequest(
        inputs,
        out,
        ALL_LAYERS,
        EtdrsGrids.ETDRS_1_3_6,
        AxialLengths.NONE,
        Optional.empty(),
        EnumSet.allOf(Output.class),
        Runtime.getRuntime().availableProcessors());
  }

  /** Returns this request with visits compared. */
  public JobRequest comparedWith(BaselineChoice choice) {
    return new JobRequest(
        inputs, out, layers, grid, axialLengths, Optional.of(choice), outputs, threads);
  }

  /** Returns this request with another number of threads. */
  public JobRequest onThreads(int count) {
    return new JobRequest(inputs, out, layers, grid, axialLengths, baseline, outputs, count);
  }

  /** Returns this request with other outputs beside the tables. */
  public JobRequest writing(Set<Output> wanted) {
    return new JobRequest(inputs, out, layers, grid, axialLengths, baseline, wanted, threads);
  }
}
