package org.isopach.cli.accuracy;

/** A part of the accuracy page. */
enum Part {
  /** Healthy eyes at full density: sectors, fovea, rescans, swellings. */
  HEALTHY,
  /** Every condition of the phantom, and whether confidence is what it says. */
  CONDITIONS,
  /** Scans that nobody should take. */
  TORTURE
}
