package org.isopach.analysis.change;

import java.util.Objects;
import org.isopach.analysis.grid.NotMeasurable;

/** What is known of the change in one sector: a measurement, or why there is none. */
public sealed interface SectorChange {
  /** Returns the sector's name. */
  String sector();

  /** Returns the sector's whole area in mm². */
  double areaMm2();

  /** Returns the share of that area where both visits have values, from 0 to 1. */
  double coveredFraction();

  /**
   * A sector measured at both visits. Both means are over the cells that both visits cover, so they
   * may differ a little from the means of the visits' own tables.
   *
   * @param sector the sector's name
   * @param baselineUm mean of the baseline in µm
   * @param followUpUm mean of the follow-up in µm
   * @param areaMm2 the sector's whole area in mm²
   * @param coveredFraction share of that area where both visits have values, from 0 to 1
   * @param uncertainty how sure the change is
   */
  record MeasuredChange(
      String sector,
      double baselineUm,
      double followUpUm,
      double areaMm2,
      double coveredFraction,
      ChangeUncertainty uncertainty)
      implements SectorChange {
    public MeasuredChange {
      Objects.requireNonNull(sector, "sector");
      Objects.requireNonNull(uncertainty, "uncertainty");
      if (!Double.isFinite(baselineUm) || !Double.isFinite(followUpUm)) {
        throw new IllegalArgumentException(
            sector + ": both means must be finite, were " + baselineUm + " and " + followUpUm);
      }
    }

    /** Makes a change of which nobody asked how sure it is. */
    public MeasuredChange(
        String sector,
        double baselineUm,
        double followUpUm,
        double areaMm2,
        double coveredFraction) {
      this(sector, baselineUm, followUpUm, areaMm2, coveredFraction, ChangeUncertainty.NOT_JUDGED);
    }

    /** Returns this change with its uncertainty. */
    public MeasuredChange with(ChangeUncertainty known) {
      return new MeasuredChange(sector, baselineUm, followUpUm, areaMm2, coveredFraction, known);
    }

    /** Returns follow-up minus baseline in µm, positive where the layer grew thicker. */
    public double changeUm() {
      return followUpUm - baselineUm;
    }

    /** Returns the change in percent of the baseline; NaN when the baseline is 0 µm. */
    public double changePercent() {
      return baselineUm == 0 ? Double.NaN : 100 * changeUm() / baselineUm;
    }
  }

  /**
   * A sector without a number for its change.
   *
   * @param sector the sector's name
   * @param reason the kind of obstacle, on the part that both visits cover
   * @param areaMm2 the sector's whole area in mm²
   * @param coveredFraction share of that area where both visits have values, from 0 to 1
   * @param detail the particulars in plain words
   */
  record NotMeasurableChange(
      String sector,
      NotMeasurable.Reason reason,
      double areaMm2,
      double coveredFraction,
      String detail)
      implements SectorChange {
    public NotMeasurableChange {
      Objects.requireNonNull(sector, "sector");
      Objects.requireNonNull(reason, "reason");
      Objects.requireNonNull(detail, "detail");
    }
  }
}
