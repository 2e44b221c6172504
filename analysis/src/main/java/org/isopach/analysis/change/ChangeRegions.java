package org.isopach.analysis.change;

import java.util.List;
import java.util.Objects;

/** Where in a map the change is beyond noise, or why that was not looked for. */
public sealed interface ChangeRegions {
  /**
   * A map that was looked over.
   *
   * @param regions the largest first; empty when nothing is beyond noise
   * @param lookedAtMm2 area of the cells that were judged, in mm²
   * @param minimumAreaMm2 regions smaller than this are left out, mm²
   * @param noise the noise it rests on
   */
  record Sought(
      List<ChangeRegion> regions, double lookedAtMm2, double minimumAreaMm2, PointNoise noise)
      implements ChangeRegions {
    /** The share of false discoveries among the cells that is put up with. */
    public static final double LEVEL = 0.01;

    public Sought {
      regions = List.copyOf(regions);
      Objects.requireNonNull(noise, "noise");
    }

    /** Returns the area beyond noise in mm². */
    public double changedMm2() {
      return regions.stream().mapToDouble(ChangeRegion::areaMm2).sum();
    }
  }

  /**
   * A map that was not looked over.
   *
   * @param reason why, in plain words
   */
  record NotSought(String reason) implements ChangeRegions {
    public NotSought {
      Objects.requireNonNull(reason, "reason");
    }
  }
}
