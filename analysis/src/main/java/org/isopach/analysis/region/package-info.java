/** Fluid and other regions inside a scan: which voxels they hold, and how large they are. */
package org.isopach.analysis.region;
