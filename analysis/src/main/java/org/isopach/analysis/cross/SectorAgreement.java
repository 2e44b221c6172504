package org.isopach.analysis.cross;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.stat.BlandAltman;

/**
 * How a sector's values of one kind of object by one software agree with ours over several scans.
 *
 * @param kind the kind of object
 * @param software what made them
 * @param layer our name of the layer
 * @param sector the sector
 * @param points one for each scan, in the order of the table
 */
public record SectorAgreement(
    String kind, String software, String layer, String sector, List<Point> points) {
  private static final double LEVEL = 0.95;

  /**
   * One scan.
   *
   * @param laterality which eye
   * @param meanUm mean of theirs and ours
   * @param differenceUm theirs minus ours
   */
  public record Point(Laterality laterality, double meanUm, double differenceUm) {}

  public SectorAgreement {
    points = List.copyOf(points);
  }

  /** Returns the limits of agreement; empty for fewer pairs than they need. */
  public Optional<BlandAltman> limits() {
    if (points.size() < BlandAltman.LEAST_PAIRS) {
      return Optional.empty();
    }
    double[] differences = points.stream().mapToDouble(Point::differenceUm).toArray();
    return Optional.of(BlandAltman.of(differences, LEVEL));
  }
}
