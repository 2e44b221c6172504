package org.isopach.job;

/** The kinds of file a run writes, as far as it writes them piece by piece. */
public enum FileKind {
  /** The table of a scan's boundaries. */
  BOUNDARY_TABLE("boundary tables"),
  /** The picture of a layer's map, drawing included. */
  MAP_PICTURE("pictures of maps"),
  /** Label images of frames and frames drawn with what was found. */
  FRAME_PICTURE("pictures of frames"),
  /** The picture of a layer's change. */
  CHANGE_PICTURE("pictures of changes"),
  /** An Ophthalmic Thickness Map. */
  THICKNESS_MAP("thickness map objects"),
  /** A Parametric Map of a layer that the thickness map's code list lacks. */
  LAYER_MAP("parametric map objects of layers"),
  /** A Parametric Map of a change. */
  CHANGE_MAP("parametric map objects of changes"),
  /** A Macular Grid Thickness and Volume Report. */
  GRID_REPORT("macular grid report objects"),
  /** A Height Map Segmentation of the boundaries. */
  HEIGHT_MAPS("height map objects"),
  /** An Ophthalmic Optical Coherence Tomography En Face Image, projection included. */
  EN_FACE("en face objects"),
  /** A Segmentation of the regions. */
  REGIONS("segmentation objects"),
  /** A Spatial Registration. */
  REGISTRATION("registration objects"),
  /** The report of a scan as PDF. */
  REPORT("reports (PDF)"),
  /** The same report wrapped as an object. */
  WRAPPED_REPORT("reports wrapped as objects"),
  /** Where the A-scans of a scan laid on another one lie. */
  PLACED_TABLE("tables of placed A-scans"),
  /** The tables of the whole run. */
  RUN_TABLES("tables of the run"),
  /** FHIR transactions. */
  FHIR("FHIR transactions");

  private final String words;

  FileKind(String words) {
    this.words = words;
  }

  /** Returns what such files are called, in the plural. */
  public String words() {
    return words;
  }
}
