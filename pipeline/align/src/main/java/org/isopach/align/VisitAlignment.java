package org.isopach.align;

import java.util.Objects;
import org.isopach.analysis.map.Landmark;

/** How the maps of two visits come to lie on one lattice, or why they do not. */
public sealed interface VisitAlignment {
  /**
   * Two visits with a centre each.
   *
   * @param baseline the centre to map the baseline about, in its scan's coordinates
   * @param followUp the centre to map the follow-up about, in its scan's coordinates
   * @param method by what the two centres are one place
   * @param placeSdMm standard deviation in mm, along each axis, of the error of place of the
   *     follow-up on the baseline
   */
  record Aligned(Landmark baseline, Landmark followUp, Method method, double placeSdMm)
      implements VisitAlignment {
    public Aligned {
      if (!(placeSdMm >= 0) || Double.isInfinite(placeSdMm)) {
        throw new IllegalArgumentException("placeSdMm must be 0 or more, was " + placeSdMm);
      }
      Objects.requireNonNull(baseline, "baseline");
      Objects.requireNonNull(followUp, "followUp");
      Objects.requireNonNull(method, "method");
    }
  }

  /**
   * Two visits that cannot be put on one lattice.
   *
   * @param detail why not, in plain words
   */
  record NotAligned(String detail) implements VisitAlignment {
    public NotAligned {
      Objects.requireNonNull(detail, "detail");
    }
  }

  /** By what two centres are taken for one place of the retina. Rotation is not corrected. */
  enum Method {
    /** Each scan's own foveal pit. */
    FOVEAL_PIT("foveal-pit"),
    /** One point of a coordinate system that both scans share. */
    SHARED_FRAME("shared-frame");

    private final String code;

    Method(String code) {
      this.code = code;
    }

    /** Returns the name used in tables. */
    public String code() {
      return code;
    }
  }
}
