package org.isopach.analysis.change;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.stat.WithinSubject;

/**
 * Measures the noise of one layer from pairs of scans between which the eye did not change.
 *
 * <p>Pairs of several eyes are pooled: the within-subject variance of a sector is the sum of the
 * squared differences over 2n, on n degrees of freedom (Bland and Altman, BMJ 1996;313:744; from
 * memory). Not safe for use by several threads.
 */
public final class RepeatNoiseEstimator {
  private static final double LEVEL = 0.95;

  private final Layer layer;
  private final NoiseSource source;
  private final int leastPairs;
  private final SectorTabulator tabulator;
  private final Map<String, Sums> sectors = new LinkedHashMap<>();
  private final PointNoiseEstimator points = new PointNoiseEstimator();
  private int pairs;

  /** What is added up for one sector. */
  private static final class Sums {
    private final List<double[]> repeats = new ArrayList<>();
    private double place;
    private double doubt;
  }

  /**
   * Makes an estimator that has seen nothing.
   *
   * @param leastPairs sectors with fewer pairs have no noise
   */
  public RepeatNoiseEstimator(
      Layer layer, NoiseSource source, int leastPairs, SectorTabulator tabulator) {
    this.layer = Objects.requireNonNull(layer, "layer");
    this.source = Objects.requireNonNull(source, "source");
    this.leastPairs = leastPairs;
    this.tabulator = Objects.requireNonNull(tabulator, "tabulator");
  }

  /** Takes one pair of repeats of the layer; a scan must not be in two pairs. */
  public void add(RepeatPair pair) {
    ChangeTable table = pair.compared().table();
    if (!table.layer().equals(layer)) {
      throw new IllegalArgumentException(table.layer().name() + " is not " + layer.name());
    }
    pairs++;
    Map<String, Double> place =
        PlaceEffect.varianceUm2(
            pair.compared().map().baseline(), table.grid(), tabulator, pair.placeSdMm());
    Map<String, Double> doubt = pair.greaterDoubt();
    for (SectorChange change : table.sectors()) {
      if (change instanceof MeasuredChange measured) {
        Sums sums = sectors.computeIfAbsent(measured.sector(), name -> new Sums());
        sums.repeats.add(new double[] {measured.baselineUm(), measured.followUpUm()});
        sums.place += place.getOrDefault(measured.sector(), 0.0);
        sums.doubt = Math.max(sums.doubt, doubt.getOrDefault(measured.sector(), 0.0));
      }
    }
    points.add(pair);
  }

  /** Returns what all pairs together say. */
  public RepeatNoise finish() {
    Map<String, SectorNoise> noise = new LinkedHashMap<>();
    sectors.forEach(
        (name, sums) -> {
          if (sums.repeats.size() >= leastPairs) {
            noise.put(name, noise(sums));
          }
        });
    Optional<PointNoise> spots =
        pairs >= leastPairs ? points.finish(source, words(pairs)) : Optional.empty();
    String gap = pairs >= leastPairs ? "" : words(pairs) + ", " + leastPairs + " are needed";
    return new RepeatNoise(layer, noise, spots, gap);
  }

  private SectorNoise noise(Sums sums) {
    WithinSubject within = WithinSubject.of(sums.repeats, LEVEL);
    return new SectorNoise(
        within.sd(),
        within.degreesOfFreedom(),
        sums.place / within.subjects(),
        sums.doubt,
        source,
        words(within.subjects()));
  }

  private String words(int count) {
    String what = count == 1 ? "1 pair" : count + " pairs";
    return what
        + (source == NoiseSource.GIVEN_REPEATS ? " of repeats given" : " of scans of one day");
  }
}
