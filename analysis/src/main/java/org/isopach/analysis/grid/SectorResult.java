package org.isopach.analysis.grid;

/** What is known of one sector: a measurement, or why there is none. */
public sealed interface SectorResult permits Measured, NotMeasurable {
  /** Returns the sector's name. */
  String sector();

  /** Returns the sector's whole area in mm², in closed form, measured or not. */
  double areaMm2();

  /** Returns the share of that area where the map has values, from 0 to 1. */
  double coveredFraction();
}
