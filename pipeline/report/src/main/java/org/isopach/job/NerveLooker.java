package org.isopach.job;

import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.NerveLook;

/** Looks for the boundaries round the disc and for its opening; safe for use by several threads. */
@FunctionalInterface
interface NerveLooker {
  /**
   * Returns what is found in a scan.
   *
   * @throws InterruptedException when the calling thread is interrupted
   */
  NerveLook look(OctScan scan) throws InterruptedException;
}
