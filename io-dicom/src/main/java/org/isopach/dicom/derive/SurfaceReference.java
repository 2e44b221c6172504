package org.isopach.dicom.derive;

import java.util.Objects;
import org.isopach.analysis.layer.Boundary;

/**
 * One surface of a height map segmentation.
 *
 * @param sopInstanceUid the object
 * @param segment the number of its segment, from 1
 * @param boundary which surface it is
 */
public record SurfaceReference(String sopInstanceUid, int segment, Boundary boundary) {
  public SurfaceReference {
    Objects.requireNonNull(sopInstanceUid, "sopInstanceUid");
    Objects.requireNonNull(boundary, "boundary");
  }
}
