package org.isopach.dicom.derive;

import java.io.IOException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.dicom.data.Dataset;

/** Gives the attributes of the object a scan was read from. */
@FunctionalInterface
public interface SourceHeaders {
  /**
   * Returns all attributes but the pixel data.
   *
   * @throws IOException when the object cannot be read any more, or is another than it was
   */
  Dataset header(OctScan scan) throws IOException;
}
