package org.isopach.analysis.grid;

import java.util.List;

/** The whole of a grid's sectors. */
final class GridTotal {
  private GridTotal() {}

  /**
   * Returns the area-weighted whole: mean of the means, spread of all cells about that mean, least
   * and greatest of all. Not measurable unless every sector is.
   */
  static SectorResult of(List<SectorResult> sectors) {
    double area = 0;
    double covered = 0;
    int missing = 0;
    double moment = 0;
    for (SectorResult result : sectors) {
      area += result.areaMm2();
      covered += result.areaMm2() * result.coveredFraction();
      if (result instanceof Measured measured) {
        moment += measured.areaMm2() * measured.meanUm();
      } else {
        missing++;
      }
    }
    double fraction = Math.min(1, covered / area);
    if (missing > 0) {
      return new NotMeasurable(
          SectorGrid.TOTAL,
          NotMeasurable.Reason.INCOMPLETE_GRID,
          area,
          fraction,
          missing + " of " + sectors.size() + " sectors could not be measured");
    }
    return spread(sectors, area, fraction, moment / area);
  }

  private static Measured spread(
      List<SectorResult> sectors, double area, double fraction, double mean) {
    double squares = 0;
    double min = Double.POSITIVE_INFINITY;
    double max = Double.NEGATIVE_INFINITY;
    for (SectorResult result : sectors) {
      Measured measured = (Measured) result;
      double shift = measured.meanUm() - mean;
      squares += measured.areaMm2() * (measured.sdUm() * measured.sdUm() + shift * shift);
      min = Math.min(min, measured.minUm());
      max = Math.max(max, measured.maxUm());
    }
    return new Measured(
        SectorGrid.TOTAL, mean, Math.sqrt(squares / area), min, max, area, fraction);
  }
}
