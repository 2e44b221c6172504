package org.isopach.analysis.series;

import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.layer.Layer;

/**
 * The visits of one eye, in one sector of one layer.
 *
 * @param eye which eye
 * @param layer the two boundaries, the same at all visits
 * @param grid name of the grid
 * @param sector name of the sector or {@code total}
 * @param points one for each visit, the earliest first, visits of one day by time and object
 */
public record VisitSeries(
    Eye eye, Layer layer, String grid, String sector, List<VisitPoint> points) {
  private static final Comparator<VisitPoint> ORDER =
      Comparator.comparing(VisitPoint::date)
          .thenComparing(point -> point.scan().acquired().orElseThrow())
          .thenComparing(point -> point.scan().sopUid());

  /** Sorts the points; every scan must say when it was made. */
  public VisitSeries {
    Objects.requireNonNull(eye, "eye");
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(grid, "grid");
    Objects.requireNonNull(sector, "sector");
    points = points.stream().sorted(ORDER).toList();
  }

  /** Returns the visits that have a number, the earliest first. */
  public List<VisitPoint> measured() {
    return points.stream().filter(point -> point.given().isPresent()).toList();
  }
}
