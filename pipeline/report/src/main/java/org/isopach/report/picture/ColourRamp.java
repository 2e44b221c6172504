package org.isopach.report.picture;

/** Turns a share of a scale into a colour. */
@FunctionalInterface
interface ColourRamp {
  /** Returns the colour as {@code 0xrrggbb} for a share from 0 to 1. */
  int rgb(double share);
}
