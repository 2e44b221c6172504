/**
 * The optic nerve: nerve fibre profile on a circle round the disc, the opening of Bruch's membrane
 * and the rim, ganglion cells round the fovea. Definitions: docs/measurements.md.
 */
package org.isopach.analysis.nerve;
