package org.isopach.job;

import java.util.Objects;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.RimProfile;

/**
 * What a volume shows of the disc, in the mm of the eye.
 *
 * @param opening of Bruch's membrane
 * @param rim its least widths, angles counted from the horizontal
 * @param fibres thickness of the nerve fibre layer round the opening's centre
 */
record DiscSight(DiscOpening opening, RimProfile rim, ThicknessMap fibres) {
  DiscSight {
    Objects.requireNonNull(opening, "opening");
    Objects.requireNonNull(rim, "rim");
    Objects.requireNonNull(fibres, "fibres");
  }
}
