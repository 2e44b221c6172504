package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.data.Code;

/** The layers that the standard can name: CID 4262, as far as our boundaries give them. */
enum ThicknessDefinition {
  TO_BM("ILM-BM", 1, "111929", "Total retinal thickness (ILM to BM)"),
  TO_RPE("ILM-RPE", 2, "111928", "Total retinal thickness (ILM to RPE)"),
  TO_EZ("ILM-EZ", 3, "111927", "Total retinal thickness (ILM to IS-OS)"),
  NERVE_FIBRES("ILM-RNFL-GCL", 4, "111925", "Retinal nerve fiber layer thickness"),
  GANGLION_CELL_COMPLEX("ILM-IPL-INL", 5, "111926", "Ganglion cell complex thickness");

  private final String layerName;
  private final int instanceNumber;
  private final String value;
  private final String meaning;

  ThicknessDefinition(String layerName, int instanceNumber, String value, String meaning) {
    this.layerName = layerName;
    this.instanceNumber = instanceNumber;
    this.value = value;
    this.meaning = meaning;
  }

  static Optional<ThicknessDefinition> of(Layer layer) {
    for (ThicknessDefinition definition : values()) {
      if (definition.layerName.equals(layer.name())) {
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
    return instanceNumber;
  }
}
