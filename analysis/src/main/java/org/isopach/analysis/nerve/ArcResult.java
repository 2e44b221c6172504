package org.isopach.analysis.nerve;

/** What is known of one arc: a mean, or why there is none. */
public sealed interface ArcResult permits ArcMean, ArcMissing {
  /** Returns the arc's name, {@value ArcScheme#GLOBAL} for the whole circle. */
  String arc();

  /** Returns the arc's width in degrees, measured or not. */
  double widthDegrees();

  /** Returns the share of the arc that has values, from 0 to 1. */
  double coveredFraction();
}
