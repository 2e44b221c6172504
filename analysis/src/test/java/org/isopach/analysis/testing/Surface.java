package org.isopach.analysis.testing;

/** A thickness in µm as a function of a place in mm. */
@FunctionalInterface
public interface Surface {
  /** Returns µm at x mm to the right and y mm down. */
  double micrometres(double xMm, double yMm);
}
