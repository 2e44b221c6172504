package org.isopach.analysis.normal;

import java.util.Objects;

/**
 * How near an eye must be to a reference. All figures are ours.
 *
 * @param diameterToleranceMm a circle may differ from the reference's by as much; thickness falls
 *     about as 1 / diameter, so that 0.1 mm is about 3 %
 * @param usualDiameterMm diameter that a source is taken to mean when it states none: published
 *     ones run from 3.4 to 3.46 mm
 * @param leastPeople smallest group; the interval of a percentile is checked from there on
 * @param leastAge age in completed years from which a row counts whose source states no ages:
 *     adults are supposed
 * @param usualAxialLengthsMm axial lengths in mm for which a row counts whose source states none:
 *     groups of healthy eyes commonly leave very short and very long ones out
 * @param strict whether a row that is silent on ages, circle diameter or kind of instrument, or an
 *     eye whose kind of instrument is unknown, is refused; otherwise the words say so
 */
public record NormalRules(
    double diameterToleranceMm,
    double usualDiameterMm,
    int leastPeople,
    int leastAge,
    StatedRange usualAxialLengthsMm,
    boolean strict) {
  /** The usual rules: silence of a source is said, not refused. */
  public static final NormalRules USUAL =
      new NormalRules(0.1, 3.46, 30, 18, StatedRange.of(22, 26), false);

  /** The same, but silence is refused. */
  public static final NormalRules STRICT =
      new NormalRules(0.1, 3.46, 30, 18, StatedRange.of(22, 26), true);

  public NormalRules {
    Objects.requireNonNull(usualAxialLengthsMm, "usualAxialLengthsMm");
  }
}
