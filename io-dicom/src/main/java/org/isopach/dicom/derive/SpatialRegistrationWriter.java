package org.isopach.dicom.derive;

import java.io.IOException;
import java.nio.file.Path;

/** Writes registrations of visits as standard objects. Safe for several threads. */
public interface SpatialRegistrationWriter {
  /**
   * Writes one registration. The same arguments and sources give the same bytes.
   *
   * @param registration two scans and how they lie to each other
   * @param provenance how that was found
   * @param target the file to make or replace; its folder must exist
   * @throws IOException when the source cannot be read or the file cannot be written
   */
  RegistrationWriteResult write(
      VisitRegistration registration, RegistrationProvenance provenance, Path target)
      throws IOException;
}
