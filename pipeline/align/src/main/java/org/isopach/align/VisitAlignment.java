package org.isopach.align;

import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusTransform;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.map.Landmark;

/** How the maps of two visits come to lie on one lattice, or why they do not. */
public sealed interface VisitAlignment {
  /**
   * Two visits that can be mapped about one place of the retina.
   *
   * @param baseline the centre to map the baseline about, in its scan's coordinates
   * @param followUpPath where the follow-up's A-scans lie: its own path, or that path registered in
   *     the baseline's coordinates
   * @param followUp the centre to map the follow-up about, in the coordinates of that path
   * @param method by what the two centres are one place
   * @param placeSdMm standard deviation in mm, along each axis, of the error of place of the
   *     follow-up on the baseline
   * @param transform from the follow-up's own coordinates to the baseline's; empty when only the
   *     centres are known
   * @param vessels what the vessels told; empty when they were not looked at
   */
  record Aligned(
      Landmark baseline,
      ScanPath followUpPath,
      Landmark followUp,
      Method method,
      double placeSdMm,
      Optional<FundusTransform> transform,
      Optional<VesselMatch> vessels)
      implements VisitAlignment {
    public Aligned {
      if (!(placeSdMm >= 0) || Double.isInfinite(placeSdMm)) {
        throw new IllegalArgumentException("placeSdMm must be 0 or more, was " + placeSdMm);
      }
      Objects.requireNonNull(baseline, "baseline");
      Objects.requireNonNull(followUpPath, "followUpPath");
      Objects.requireNonNull(followUp, "followUp");
      Objects.requireNonNull(method, "method");
      Objects.requireNonNull(transform, "transform");
      Objects.requireNonNull(vessels, "vessels");
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

  /** By what two scans are laid on one another, the surest first. */
  enum Method {
    /** The shadows of vessels: shift, turn, scale, and the frames' own shifts. */
    VESSELS("vessel-shadows"),
    /** A registration that an object states: shift, turn and scale. */
    STATED("stated-registration"),
    /** One coordinate system that both scans share. */
    SHARED_FRAME("shared-frame"),
    /** Each scan's own foveal pit. Turn and scale are not corrected. */
    FOVEAL_PIT("foveal-pit");

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
