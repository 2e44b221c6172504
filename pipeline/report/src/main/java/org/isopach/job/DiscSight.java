package org.isopach.job;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.RimProfile;

/**
 * What a volume shows of the disc, in the mm of the eye.
 *
 * @param opening of Bruch's membrane
 * @param rim its least widths, angles counted from the horizontal
 * @param fibres thickness of the nerve fibre layer round the opening's centre; empty once it is
 *     written
 */
record DiscSight(DiscOpening opening, RimProfile rim, Optional<ThicknessMap> fibres) {
  DiscSight {
    Objects.requireNonNull(opening, "opening");
    Objects.requireNonNull(rim, "rim");
    Objects.requireNonNull(fibres, "fibres");
  }

  /** Returns this without the map, which takes room. */
  DiscSight withoutMap() {
    return new DiscSight(opening, rim, Optional.empty());
  }
}
