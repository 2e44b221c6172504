package org.isopach.cli;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import picocli.CommandLine.Option;

/** Which layers are measured, on which grid. */
final class LayerOptions {
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

  /** Returns the layers to measure, each once. */
  List<Layer> layers() {
    return layers == null ? LayerCatalogue.ALL : new ArrayList<>(new LinkedHashSet<>(layers));
  }

  /** Returns the layers to draw and to write as objects. */
  Set<Layer> pictured() {
    return new LinkedHashSet<>(layers == null ? LayerCatalogue.WHOLE_RETINA : layers);
  }

  SectorGrid grid() {
    return grid;
  }
}
