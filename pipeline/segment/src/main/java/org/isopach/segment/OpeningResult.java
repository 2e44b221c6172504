package org.isopach.segment;

import java.util.Optional;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.layer.BoundarySet;

/**
 * What came of looking for the opening of Bruch's membrane in a scan laid out as a right eye.
 *
 * @param boundaries those of the scan; where an opening was found, only the ILM inside of it
 * @param shape the opening and the ILM over it, or empty
 * @param middle about where the disc lies, also where its opening was not seen well enough
 * @param whyNot why there is no opening
 */
record OpeningResult(
    BoundarySet boundaries,
    Optional<OpeningShape> shape,
    Optional<FundusPoint> middle,
    Optional<String> whyNot) {
  static OpeningResult notSeen(
      BoundarySet boundaries, Optional<FundusPoint> middle, String whyNot) {
    return new OpeningResult(boundaries, Optional.empty(), middle, Optional.of(whyNot));
  }

  /** Returns the boundaries of a scan in which no opening is looked for. */
  static OpeningResult notLookedFor(BoundarySet boundaries) {
    return new OpeningResult(boundaries, Optional.empty(), Optional.empty(), Optional.empty());
  }
}
