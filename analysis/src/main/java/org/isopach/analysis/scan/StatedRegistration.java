package org.isopach.analysis.scan;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusTransform;

/**
 * A registration that an object states: where the points of one frame lie in another.
 *
 * @param from what the points given are counted from
 * @param to what the points returned are counted from; another frame than {@code from}
 * @param transform takes mm of {@code from} to mm of {@code to}; the same place of the retina
 * @param document the object that states it
 */
public record StatedRegistration(
    FundusFrame from, FundusFrame to, FundusTransform transform, SourceDocument document) {
  public StatedRegistration {
    Objects.requireNonNull(from, "from");
    Objects.requireNonNull(to, "to");
    Objects.requireNonNull(transform, "transform");
    Objects.requireNonNull(document, "document");
    if (from.equals(to)) {
      throw new IllegalArgumentException("a registration needs two frames, had twice " + from);
    }
  }

  /** Returns the same registration read the other way round. */
  public StatedRegistration inverse() {
    return new StatedRegistration(to, from, transform.inverse(), document);
  }
}
