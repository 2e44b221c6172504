package org.isopach.job;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.isopach.align.EnFace;
import org.isopach.align.EnFaceProjector;

/** The vessels' shadows of the last few scans asked for, since a baseline is asked for again. */
final class ShadowStore {
  private static final int KEPT = 6;

  private final Map<MeasuredScan.Place, Optional<EnFace>> kept =
      new LinkedHashMap<>(2 * KEPT, 0.75f, true);

  /** Returns a mapped scan's shadows, empty when Bruch's membrane was not found in it. */
  synchronized Optional<EnFace> of(MeasuredScan scan) {
    MeasuredScan.Place place = scan.place().orElseThrow();
    Optional<EnFace> known = kept.get(place);
    if (known != null) {
      return known;
    }
    Optional<EnFace> found =
        EnFaceProjector.project(scan.scan(), place.path(), scan.boundaries().orElseThrow());
    kept.put(place, found);
    if (kept.size() > KEPT) {
      kept.remove(kept.keySet().iterator().next());
    }
    return found;
  }
}
