package org.isopach.analysis.asymmetry;

import java.util.Objects;

/** How a sector differs between the two eyes, or why that is not known. */
public sealed interface SectorAsymmetry {
  /** Returns the sector's name. */
  String sector();

  /** Returns the sector's whole area in mm². */
  double areaMm2();

  /** Returns the share of that area where both eyes have values, from 0 to 1. */
  double coveredFraction();

  /**
   * A sector measured in both eyes, over the cells that both cover once the left one is mirrored.
   *
   * @param sector the sector's name
   * @param rightUm mean of the right eye in µm
   * @param leftUm mean of the left eye in µm
   * @param areaMm2 the sector's whole area in mm²
   * @param coveredFraction share of that area where both eyes have values, from 0 to 1
   */
  record Given(String sector, double rightUm, double leftUm, double areaMm2, double coveredFraction)
      implements SectorAsymmetry {
    public Given {
      Objects.requireNonNull(sector, "sector");
      if (!Double.isFinite(rightUm) || !Double.isFinite(leftUm)) {
        throw new IllegalArgumentException(sector + ": both means must be finite");
      }
    }

    /** Returns right minus left in µm, positive where the right eye is thicker. */
    public double differenceUm() {
      return rightUm - leftUm;
    }

    /** Returns the mean of both eyes in µm. */
    public double meanUm() {
      return (rightUm + leftUm) / 2;
    }
  }

  /**
   * A sector without numbers.
   *
   * @param sector the sector's name
   * @param areaMm2 the sector's whole area in mm²
   * @param coveredFraction share of that area where both eyes have values, from 0 to 1
   * @param reason why, in plain words
   */
  record Missing(String sector, double areaMm2, double coveredFraction, String reason)
      implements SectorAsymmetry {
    public Missing {
      Objects.requireNonNull(sector, "sector");
      Objects.requireNonNull(reason, "reason");
    }
  }
}
