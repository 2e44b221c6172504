package org.isopach.report.fhir;

/** What numbers of a scan are reported together. */
enum FhirPanel {
  /** The grid that LOINC defines. */
  MACULA(LoincCodes.SYSTEM, LoincCodes.MACULA_PANEL, "Macular grid by OCT"),
  /** The nerve fibre layer round the disc as far as LOINC has codes. */
  FIBRES(LoincCodes.SYSTEM, LoincCodes.FIBRES_PANEL, "Retinal nerve fibre layer round the disc"),
  /** All other sectors of layers. */
  LAYERS(FhirNumbers.LOCAL, "layer-sectors", "Thickness of layers of the retina by sector"),
  /** All else of the nerve and the ganglion cells. */
  NERVE(FhirNumbers.LOCAL, "optic-nerve", "Optic nerve and ganglion cell layers");

  private final String system;
  private final String code;
  private final String words;

  FhirPanel(String system, String code, String words) {
    this.system = system;
    this.code = code;
    this.words = words;
  }

  String system() {
    return system;
  }

  String code() {
    return code;
  }

  String words() {
    return words;
  }
}
