package org.isopach.dicom.derive;

import java.util.Optional;
import org.isopach.analysis.layer.Layer;
import org.isopach.dicom.data.Code;

/** The layers that the standard can name: CID 4262, as far as our boundaries give them. */
enum ThicknessDefinition {
  TO_BM(
      "ILM-BM",
      1,
      "111929",
      "Total retinal thickness (ILM to BM)",
      "the code does not say which face of Bruch's membrane; ours is the outer one"),
  TO_RPE(
      "ILM-RPE",
      2,
      "111928",
      "Total retinal thickness (ILM to RPE)",
      "the code does not say which surface of the RPE; ours is the outer one (128299, DCM)"),
  TO_EZ(
      "ILM-EZ",
      3,
      "111927",
      "Total retinal thickness (ILM to IS-OS)",
      "ours is the inner surface of the ellipsoid zone (128320, DCM)"),
  NERVE_FIBRES("ILM-RNFL-GCL", 4, "111925", "Retinal nerve fiber layer thickness", ""),
  GANGLION_CELL_COMPLEX(
      "ILM-IPL-INL",
      5,
      "111926",
      "Ganglion cell complex thickness",
      "the code does not name the surfaces; ours is from ILM to the outer surface of IPL");

  private final String layerName;
  private final int instanceNumber;
  private final String value;
  private final String meaning;
  private final String leftOpen;

  ThicknessDefinition(
      String layerName, int instanceNumber, String value, String meaning, String leftOpen) {
    this.layerName = layerName;
    this.instanceNumber = instanceNumber;
    this.value = value;
    this.meaning = meaning;
    this.leftOpen = leftOpen;
  }

  static Optional<ThicknessDefinition> of(Layer layer) {
    for (ThicknessDefinition definition : values()) {
      if (definition.layerName.equals(layer.name())) {
        return Optional.of(definition);
      }
    }
    return Optional.empty();
  }

  String layerName() {
    return layerName;
  }

  /** Returns what the code's meaning leaves open and how we take it; empty for nothing. */
  String leftOpen() {
    return leftOpen;
  }

  Code code() {
    return new Code(value, "DCM", meaning);
  }

  /** Returns the number of the instance within its series, from 1. */
  int instanceNumber() {
    return instanceNumber;
  }
}
