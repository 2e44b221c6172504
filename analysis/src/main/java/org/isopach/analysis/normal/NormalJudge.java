package org.isopach.analysis.normal;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.apache.commons.math3.distribution.NormalDistribution;
import org.isopach.analysis.normal.NormalPlace.NotPlaced;
import org.isopach.analysis.normal.NormalPlace.Placed;
import org.isopach.analysis.normal.NormalPlace.Reason;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.analysis.stat.ConfidenceInterval;

/**
 * Places a value among those of the first group of a table that fits it. A scope the table states
 * is kept to; where the table is silent, the notes say so, or a strict rule refuses. Definition and
 * sources: docs/measurements.md, "Normal limits".
 */
public final class NormalJudge {
  /** Stands with every percentile. */
  public static final String INDICATIVE =
      "indicative: the reference was measured with other instruments and other programs' lines";

  private static final double LEVEL = ConfidenceInterval.USUAL_LEVEL;
  private static final NormalDistribution NORMAL = new NormalDistribution(null, 0, 1);

  private final ReferenceTable table;
  private final NormalRules rules;

  /** Makes a judge by a table; {@link ReferenceTable#only} confines it to a named group. */
  public NormalJudge(ReferenceTable table, NormalRules rules) {
    this.table = Objects.requireNonNull(table, "table");
    this.rules = Objects.requireNonNull(rules, "rules");
  }

  /**
   * Places a value.
   *
   * @param valueUm value in µm; NaN where there is none
   * @param place what was measured and where; of a circle the diameter must be known
   * @param eye what is known of the eye
   * @param repeatSdUm within-subject standard deviation of one scan in µm, where known: widens the
   *     interval
   * @throws IllegalArgumentException when the standard deviation is negative or not finite
   */
  public NormalPlace place(
      double valueUm, ReferencePlace place, NormalEye eye, OptionalDouble repeatSdUm) {
    double repeat = repeatSdUm.orElse(0);
    if (!(repeat >= 0) || Double.isInfinite(repeat)) {
      throw new IllegalArgumentException("a standard deviation is 0 or more, was " + repeat);
    }
    if (!Double.isFinite(valueUm)) {
      return new NotPlaced(Reason.NO_VALUE, "there is no value to place");
    }
    Optional<NormalLimits> found = limits(place, eye);
    return found.isEmpty() ? refusal(place, eye) : placed(valueUm, repeat, found.get());
  }

  /** Returns the group's distribution for an eye, or empty where {@link #place} would refuse. */
  public Optional<NormalLimits> limits(ReferencePlace place, NormalEye eye) {
    RowFit fit = new RowFit(rules, place, eye);
    return table.rows().stream()
        .filter(row -> fit.obstacle(row).isEmpty())
        .findFirst()
        .map(row -> new NormalLimits(row, mean(row, eye), row.sdUm(), notes(fit, row)));
  }

  /**
   * Returns by how much a place is expected to change in a year, or why that is not known. The
   * eye's age should be that in the middle of what is followed.
   */
  public AgeSlope ageing(ReferencePlace place, NormalEye eye) {
    RowFit fit = new RowFit(rules, place, eye);
    String layer = place.boundaries();
    List<NotPlaced> obstacles = new ArrayList<>();
    for (ReferenceAgeing row : table.ageing()) {
      Optional<NotPlaced> obstacle = fit.obstacle(row);
      if (obstacle.isEmpty()) {
        return new AgeSlope(
            layer,
            place.sector(),
            OptionalDouble.of(row.umPerYear()),
            row.source().population(),
            row.source().source(),
            "");
      }
      obstacles.add(named(row.source(), obstacle.get()));
    }
    return new AgeSlope(
        layer, place.sector(), OptionalDouble.empty(), "", "", furthest(place, obstacles).detail());
  }

  private static double mean(ReferenceRow row, NormalEye eye) {
    return row.meanUm()
        + shift(row.age(), eye.ageYears())
        + shift(row.axialLength(), eye.axialLengthMm())
        + shift(row.discArea(), eye.discAreaMm2());
  }

  private static double shift(Optional<ReferenceSlope> slope, OptionalDouble value) {
    return slope.isEmpty() ? 0 : slope.get().shiftUm(value.orElseThrow());
  }

  private static List<String> notes(RowFit fit, ReferenceRow row) {
    List<String> notes = new ArrayList<>();
    notes.add(INDICATIVE);
    notes.addAll(fit.notes(row));
    return notes;
  }

  private static Placed placed(double valueUm, double repeatSdUm, NormalLimits limits) {
    ReferenceRow row = limits.row();
    double z = limits.z(valueUm);
    double share = repeatSdUm / row.sdUm();
    double half =
        NORMAL.inverseCumulativeProbability((1 + LEVEL) / 2)
            * Math.sqrt(1.0 / row.n() + z * z / (2 * (row.n() - 1.0)) + share * share);
    ConfidenceInterval interval =
        new ConfidenceInterval(percent(z - half), percent(z + half), LEVEL);
    double percentile = percent(z);
    String words = NormalWords.of(percentile, interval, row);
    return new Placed(percentile, interval, z, limits.meanUm(), words, limits.notes(), row);
  }

  private static double percent(double z) {
    return 100 * NORMAL.cumulativeProbability(z);
  }

  private NotPlaced refusal(ReferencePlace place, NormalEye eye) {
    RowFit fit = new RowFit(rules, place, eye);
    List<NotPlaced> obstacles =
        table.rows().stream()
            .map(row -> named(row.source(), fit.obstacle(row).orElseThrow()))
            .toList();
    return furthest(place, obstacles);
  }

  /** A row of another measure or sector is not worth naming. */
  private static NotPlaced named(ReferenceSource source, NotPlaced obstacle) {
    return obstacle.reason().compareTo(Reason.SECTOR_UNKNOWN) <= 0
        ? obstacle
        : new NotPlaced(obstacle.reason(), source.referenceId() + ": " + obstacle.detail());
  }

  /** Returns the obstacle of the row that came nearest, with what kept the others of its place. */
  private static NotPlaced furthest(ReferencePlace place, List<NotPlaced> obstacles) {
    NotPlaced nearest =
        new NotPlaced(Reason.NO_REFERENCE, "no reference of " + place.words() + " is at hand");
    List<String> details = new ArrayList<>();
    for (NotPlaced obstacle : obstacles) {
      nearest = obstacle.reason().compareTo(nearest.reason()) > 0 ? obstacle : nearest;
      if (obstacle.reason().compareTo(Reason.SECTOR_UNKNOWN) > 0) {
        details.add(obstacle.detail());
      }
    }
    return details.isEmpty()
        ? nearest
        : new NotPlaced(nearest.reason(), String.join("; ", details));
  }
}
