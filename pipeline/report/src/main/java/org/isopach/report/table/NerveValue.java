package org.isopach.report.table;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.normal.NormalPlace;

/**
 * One number measured of the nerve, or why there is none.
 *
 * @param measure what was measured
 * @param layer name of the layer or distance; empty for measures that have none
 * @param scheme how the whole was cut; empty for the whole
 * @param sector name in the scheme
 * @param value in the measure's unit; empty when refused
 * @param spread of what the value is a mean of; empty for measures that are no means
 * @param coveredFraction share of the sector that has values, from 0 to 1; empty where it means
 *     nothing
 * @param reason why there is no value; empty when there is one
 * @param place where the value lies among a reference group's, or why that is not said; empty when
 *     it was not asked for
 * @param flags what makes this number doubtful, in the order it was said
 */
public record NerveValue(
    NerveMeasure measure,
    String layer,
    String scheme,
    String sector,
    OptionalDouble value,
    Optional<Spread> spread,
    OptionalDouble coveredFraction,
    String reason,
    Optional<NormalPlace> place,
    List<FindingKind> flags) {

  /** Standard deviation, least and greatest of what a value is the mean of, in its unit. */
  public record Spread(double sd, double min, double max) {}

  public NerveValue {
    Objects.requireNonNull(measure, "measure");
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(scheme, "scheme");
    Objects.requireNonNull(sector, "sector");
    Objects.requireNonNull(spread, "spread");
    Objects.requireNonNull(coveredFraction, "coveredFraction");
    Objects.requireNonNull(place, "place");
    flags = List.copyOf(flags);
    if (value.isPresent() != reason.isEmpty()) {
      throw new IllegalArgumentException(
          measure.code() + " " + sector + ": either a value or a reason, had " + value + reason);
    }
  }

  /** Makes a value of which nothing was said and that has no place yet. */
  public NerveValue(
      NerveMeasure measure,
      String layer,
      String scheme,
      String sector,
      OptionalDouble value,
      Optional<Spread> spread,
      OptionalDouble coveredFraction,
      String reason) {
    this(
        measure,
        layer,
        scheme,
        sector,
        value,
        spread,
        coveredFraction,
        reason,
        Optional.empty(),
        List.of());
  }

  /** Returns a value that is no mean. */
  public static NerveValue single(NerveMeasure measure, String layer, String sector, double value) {
    return new NerveValue(
        measure,
        layer,
        "",
        sector,
        OptionalDouble.of(value),
        Optional.empty(),
        OptionalDouble.empty(),
        "");
  }

  /** Returns which value this is. */
  public NerveKey key() {
    return new NerveKey(measure, layer, scheme, sector);
  }

  /** Returns this value placed among a reference group's. */
  public NerveValue placed(NormalPlace found) {
    return new NerveValue(
        measure,
        layer,
        scheme,
        sector,
        value,
        spread,
        coveredFraction,
        reason,
        Optional.of(found),
        flags);
  }

  /** Returns this with what makes it doubtful. */
  public NerveValue flagged(List<FindingKind> said) {
    return new NerveValue(
        measure, layer, scheme, sector, value, spread, coveredFraction, reason, place, said);
  }

  /** Returns this without a number, whatever it had. */
  public NerveValue refused(String why) {
    return new NerveValue(
        measure,
        layer,
        scheme,
        sector,
        OptionalDouble.empty(),
        Optional.empty(),
        coveredFraction,
        why,
        place,
        flags);
  }

  /** Returns the place when it is a percentile. */
  public Optional<NormalPlace.Placed> percentile() {
    return place.filter(NormalPlace.Placed.class::isInstance).map(NormalPlace.Placed.class::cast);
  }
}
