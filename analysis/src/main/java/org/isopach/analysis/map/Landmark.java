package org.isopach.analysis.map;

import java.util.Objects;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * The point a map and its grid are centred on.
 *
 * @param point where it lies, in the coordinates of the scan's path (mm)
 * @param source what it was found by
 */
public record Landmark(FundusPoint point, Source source) {
  /** What a centre can come from. */
  public enum Source {
    /** The lowest point of the foveal pit, found in the scan. */
    FOVEAL_PIT("foveal-pit"),
    /** The middle of the scanned area, because no pit was found. */
    SCAN_MIDDLE("scan-middle"),
    /** The centre of the opening of Bruch's membrane, found in the scan. */
    DISC_OPENING("disc-opening"),
    /** Stated by the object itself. */
    STATED("stated");

    private final String code;

    Source(String code) {
      this.code = code;
    }

    /**
     * Returns whether a macular grid round it is where readers of standard codes expect one: found
     * as the foveal pit, or stated as the place by whoever made the map.
     */
    public boolean foveal() {
      return this == FOVEAL_PIT || this == STATED;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }

  public Landmark {
    Objects.requireNonNull(point, "point");
    Objects.requireNonNull(source, "source");
  }
}
