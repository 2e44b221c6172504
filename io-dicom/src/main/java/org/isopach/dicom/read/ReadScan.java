package org.isopach.dicom.read;

import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.ScanDescription;

/**
 * A scan together with what its object says beyond it.
 *
 * @param scan the scan
 * @param description the rest
 */
public record ReadScan(OctScan scan, ScanDescription description) {}
