package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.data.Code;

/** The layers that the standard can name: CID 4262, as far as our boundaries give them. */
enum ThicknessDefinition {
  TO_BM(Layer.ILM_BM, "111929", "Total retinal thickness (ILM to BM)"),
  TO_RPE(Layer.ILM_RPE, "111928", "Total retinal thickness (ILM to RPE)"),
  TO_EZ(Layer.ILM_EZ, "111927", "Total retinal thickness (ILM to IS-OS)");

  private final Layer layer;
  private final String value;
  private final String meaning;

  ThicknessDefinition(Layer layer, String value, String meaning) {
    this.layer = layer;
    this.value = value;
    this.meaning = meaning;
  }

  static Optional<ThicknessDefinition> of(Layer layer) {
    for (ThicknessDefinition definition : values()) {
      if (definition.layer.equals(layer)) {
        return Optional.of(definition);
      }
    }
    return Optional.empty();
  }

  Code code() {
    return new Code(value, "DCM", meaning);
  }

  /** Returns the number of the instance within its series, from 1. */
  int instanceNumber() {
    return ordinal() + 1;
  }
}
