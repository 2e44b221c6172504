package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.dicom.data.Code;

/**
 * How thicknesses of layers are coded: CID 4262 where it has the layer; for the others our own
 * codes, the layer's short name under a private scheme (PS3.16, clause 8).
 */
public final class LayerCode {
  private static final int LONGEST = 16;

  private LayerCode() {}

  /** Returns the code of a layer's thickness; empty when its name is longer than a code may be. */
  public static Optional<Code> of(Layer layer) {
    Optional<Code> standard = ThicknessDefinition.of(layer).map(ThicknessDefinition::code);
    String name = LayerCatalogue.shortName(layer);
    if (standard.isPresent() || name.length() > LONGEST) {
      return standard;
    }
    return Optional.of(new Code(name, RegionCode.SCHEME, layer.name() + " thickness"));
  }

  /** Returns the layer of a code, or empty when it is none of ours. */
  public static Optional<Layer> layer(Code code) {
    for (ThicknessDefinition definition : ThicknessDefinition.values()) {
      if (definition.code().sameAs(code)) {
        return Layer.ofName(definition.layerName());
      }
    }
    return code.scheme().equals(RegionCode.SCHEME)
        ? LayerCatalogue.ofWord(code.value())
        : Optional.empty();
  }

  /**
   * Returns what a code of CID 4262 leaves open and how we take it; empty for a code that leaves
   * nothing open.
   */
  public static String leftOpen(Code code) {
    for (ThicknessDefinition definition : ThicknessDefinition.values()) {
      if (definition.code().sameAs(code)) {
        return definition.leftOpen();
      }
    }
    return "";
  }
}
