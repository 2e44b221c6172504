package org.isopach.analysis.grid;

import java.util.Objects;

/**
 * Why a sector has no number.
 *
 * @param sector the sector's name
 * @param reason the kind of obstacle
 * @param areaMm2 the sector's whole area in mm²
 * @param coveredFraction share of that area where the map has values, from 0 to 1
 * @param detail the particulars in plain words
 */
public record NotMeasurable(
    String sector, Reason reason, double areaMm2, double coveredFraction, String detail)
    implements SectorResult {
  /** What can keep a sector from being measured. */
  public enum Reason {
    /** Less of the sector has values than was asked for. */
    LOW_COVERAGE("low-coverage"),
    /** The sector has no value at all: it lies outside the scan, or nothing was found in it. */
    OUTSIDE_SCAN("outside-scan"),
    /** The whole of a grid, one or more of whose sectors could not be measured. */
    INCOMPLETE_GRID("incomplete-grid"),
    /** The frames span no area, so that there is no volume: a single line or a circle. */
    SPANS_NO_AREA("spans-no-area"),
    /** Where the A-scans lie is not stated. */
    NO_PLACEMENT("no-placement");

    private final String code;

    Reason(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }

  public NotMeasurable {
    Objects.requireNonNull(sector, "sector");
    Objects.requireNonNull(reason, "reason");
    Objects.requireNonNull(detail, "detail");
  }
}
