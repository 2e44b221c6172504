package org.isopach.job;

import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.SegmentationResult;

/** Finds boundaries, regions and the fovea in a scan; safe for use by several threads. */
@FunctionalInterface
interface ScanSegmenter {
  /**
   * Returns what is found in a scan.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  SegmentationResult segment(OctScan scan) throws InterruptedException;
}
