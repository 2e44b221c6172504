package org.isopach.analysis.layer;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The layers that are measured when nothing else is asked for, and the short names of the trade for
 * them. What each is: docs/measurements.md, "Thickness".
 */
public final class LayerCatalogue {
  /** The three thicknesses of the whole retina. */
  public static final List<Layer> WHOLE_RETINA = List.of(Layer.ILM_BM, Layer.ILM_RPE, Layer.ILM_EZ);

  private static final Map<Layer, String> SHORT_NAMES = shortNames();

  /** Every layer, the whole retina first. */
  public static final List<Layer> ALL = all();

  private LayerCatalogue() {}

  /** Returns a layer's short name, for example {@code RNFL}, or its full name where it has none. */
  public static String shortName(Layer layer) {
    return SHORT_NAMES.getOrDefault(layer, layer.name());
  }

  /** Returns the layer of a full or a short name, or empty. */
  public static Optional<Layer> ofWord(String word) {
    return ALL.stream()
        .filter(layer -> layer.name().equals(word) || shortName(layer).equals(word))
        .findFirst();
  }

  private static Map<Layer, String> shortNames() {
    Map<Layer, String> names = new LinkedHashMap<>();
    names.put(new Layer(Boundary.ILM, Boundary.RPE_INNER), "neurosensory");
    names.put(new Layer(Boundary.ILM, Boundary.IPL_INL), "GCC");
    names.put(new Layer(Boundary.ILM, Boundary.RNFL_GCL), "RNFL");
    names.put(new Layer(Boundary.RNFL_GCL, Boundary.IPL_INL), "GCL+IPL");
    names.put(new Layer(Boundary.RNFL_GCL, Boundary.GCL_IPL), "GCL");
    names.put(new Layer(Boundary.GCL_IPL, Boundary.IPL_INL), "IPL");
    names.put(new Layer(Boundary.IPL_INL, Boundary.INL_OPL), "INL");
    names.put(new Layer(Boundary.INL_OPL, Boundary.ELM), "OPL+ONL");
    names.put(new Layer(Boundary.INL_OPL, Boundary.OPL_ONL), "OPL");
    names.put(new Layer(Boundary.OPL_ONL, Boundary.ELM), "ONL");
    names.put(new Layer(Boundary.ELM, Boundary.RPE_INNER), "photoreceptors");
    names.put(new Layer(Boundary.ELM, Boundary.BM), "ELM-BM");
    names.put(new Layer(Boundary.RPE_INNER, Boundary.BM), "RPE-complex");
    names.put(new Layer(Boundary.RPE, Boundary.BM), "RPE-BM");
    names.put(new Layer(Boundary.BM, Boundary.CHOROID_SCLERA), "choroid");
    return Collections.unmodifiableMap(names);
  }

  private static List<Layer> all() {
    List<Layer> layers = new ArrayList<>(WHOLE_RETINA);
    layers.addAll(SHORT_NAMES.keySet());
    return List.copyOf(layers);
  }
}
