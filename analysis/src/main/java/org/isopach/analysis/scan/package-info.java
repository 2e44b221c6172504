/** Tomography scans and their frames, free of any file format. */
package org.isopach.analysis.scan;
