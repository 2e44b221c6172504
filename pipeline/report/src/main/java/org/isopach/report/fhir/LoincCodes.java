package org.isopach.report.fhir;

import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorTable;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;

/**
 * LOINC codes of the macular grid and of the nerve fibre layer round the disc, as the value sets of
 * HL7's eye care guide list them (Ophthalmology Retinal, 0.1.0, ballot 2021). LOINC is copyright
 * Regenstrief Institute.
 *
 * <p>LOINC defines the grid's thickness as ILM to RPE: no other layer has a code. Codes of clock
 * hours and of sectors other than quadrants are not used, since which of the schemes in use they
 * mean was not read.
 */
final class LoincCodes {
  static final String SYSTEM = "http://loinc.org";
  static final String MACULA_PANEL = "57119-0";
  static final String FIBRES_PANEL = "86291-2";

  /** The layer that LOINC's macular grid means. */
  static final Layer GRID_LAYER = new Layer(Boundary.ILM, Boundary.RPE);

  private static final String CENTRE_POINT = "57108-3";
  private static final String TOTAL_VOLUME = "57118-2";

  private static final Map<String, String> GRID =
      Map.of(
          "centre",
          "57109-1",
          "inner-superior",
          "57110-9",
          "inner-nasal",
          "57111-7",
          "inner-inferior",
          "57112-5",
          "inner-temporal",
          "57113-3",
          "outer-superior",
          "57114-1",
          "outer-nasal",
          "57115-8",
          "outer-inferior",
          "57116-6",
          "outer-temporal",
          "57117-4");

  private static final Map<String, String> FIBRES_RIGHT =
      Map.of(
          "global", "86301-9",
          "superior", "86276-3",
          "nasal", "86284-7",
          "inferior", "86283-9",
          "temporal", "86273-0");

  private static final Map<String, String> FIBRES_LEFT =
      Map.of(
          "global", "86290-4",
          "superior", "86277-1",
          "nasal", "86279-7",
          "inferior", "86288-8",
          "temporal", "86278-9");

  private LoincCodes() {}

  /** Returns the code of a sector's mean thickness, or empty where LOINC has none. */
  static Optional<String> thickness(SectorTable table, String sector) {
    return defined(table) ? Optional.ofNullable(GRID.get(sector)) : Optional.empty();
  }

  /** Returns the code of the thickness at the centre, or empty where LOINC has none. */
  static Optional<String> centrePoint(SectorTable table) {
    return defined(table) ? Optional.of(CENTRE_POINT) : Optional.empty();
  }

  /** Returns the code of the volume of the whole grid, or empty where LOINC has none. */
  static Optional<String> volume(SectorTable table) {
    return defined(table) ? Optional.of(TOTAL_VOLUME) : Optional.empty();
  }

  /** The codes are of a grid round the fovea; the middle of a scan is none. */
  private static boolean defined(SectorTable table) {
    return table.layer().equals(GRID_LAYER)
        && table.grid().name().equals(EtdrsGrids.ETDRS_1_3_6.name())
        && table.centre().source().foveal();
  }

  /** Returns the code of the mean of the circle ({@code global}) or of a quadrant. */
  static Optional<String> fibres(Laterality eye, String quadrant) {
    return Optional.ofNullable(
        (eye == Laterality.RIGHT ? FIBRES_RIGHT : FIBRES_LEFT).get(quadrant));
  }
}
