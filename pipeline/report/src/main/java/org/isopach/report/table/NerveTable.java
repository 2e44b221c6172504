package org.isopach.report.table;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.UnaryOperator;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * What was measured of one scan in one role, as it stands in tables.
 *
 * @param scan the scan
 * @param laterality which eye
 * @param role what the scan was taken for
 * @param diameterMm of the circle, mm; empty without one
 * @param zero what angles are counted from
 * @param centre of circle, opening or annulus, in the coordinates of the scan's path; empty without
 *     one
 * @param centreSource what the centre was found by
 * @param ageYears age at the acquisition; empty when not known
 * @param values in the order of the table
 */
public record NerveTable(
    ScanIdentity scan,
    Laterality laterality,
    String role,
    OptionalDouble diameterMm,
    AngleZero zero,
    Optional<FundusPoint> centre,
    String centreSource,
    OptionalDouble ageYears,
    List<NerveValue> values) {
  public NerveTable {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(role, "role");
    Objects.requireNonNull(diameterMm, "diameterMm");
    Objects.requireNonNull(zero, "zero");
    Objects.requireNonNull(centre, "centre");
    Objects.requireNonNull(centreSource, "centreSource");
    Objects.requireNonNull(ageYears, "ageYears");
    values = List.copyOf(values);
  }

  /** Returns the value of a measure in a sector of a scheme, or empty. */
  public Optional<NerveValue> value(NerveMeasure measure, String scheme, String sector) {
    return values.stream()
        .filter(one -> one.measure() == measure)
        .filter(one -> one.scheme().equals(scheme) && one.sector().equals(sector))
        .findFirst();
  }

  /** Returns a value by its key, or empty. */
  public Optional<NerveValue> value(NerveKey key) {
    return values.stream().filter(one -> one.key().equals(key)).findFirst();
  }

  /** Returns this with each value made into another of the same place. */
  public NerveTable mapped(UnaryOperator<NerveValue> made) {
    return new NerveTable(
        scan,
        laterality,
        role,
        diameterMm,
        zero,
        centre,
        centreSource,
        ageYears,
        values.stream().map(made).toList());
  }

  /** Returns whether any value is there. */
  public boolean anyValue() {
    return values.stream().anyMatch(one -> one.value().isPresent());
  }
}
