package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;

/** Writes thickness maps as standard objects. Safe for several threads. */
public interface ThicknessMapWriter {
  /**
   * Writes one map. The same arguments and source give the same bytes.
   *
   * @param map the map
   * @param source the scan it was made from, as it was read, with the lengths its object states
   * @param provenance how it was made
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  MapWriteResult write(ThicknessMap map, OctScan source, MapProvenance provenance, Path target)
      throws IOException;

  /** Returns what writes other objects from the same sources; empty when there is nothing. */
  default Optional<DerivedWriters> others() {
    return Optional.empty();
  }
}
