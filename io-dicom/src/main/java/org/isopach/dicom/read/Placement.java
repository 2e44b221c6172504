package org.isopach.dicom.read;

import java.util.Optional;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.scan.ReferenceImage;

/**
 * Where the A-scans of a tomography lie.
 *
 * @param path their places
 * @param reference the fundus image they were placed on; empty when placed in the patient's space
 */
record Placement(ScanPath path, Optional<ReferenceImage> reference) {}
