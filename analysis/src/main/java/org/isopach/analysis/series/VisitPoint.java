package org.isopach.analysis.series;

import java.time.LocalDate;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * One visit in a series.
 *
 * @param scan the scan that stands for the visit
 * @param date calendar date of the scan
 * @param days calendar days from the series' first visit; negative for visits before it that could
 *     not be measured
 * @param value what the sector gave
 * @param coveredFraction share of the sector, from 0 to 1, that counts: of the first visit what it
 *     covers, later what both visits cover; 0 where nothing was measured
 * @param alignment how the visit was put on the first one; {@code first} for that one itself, empty
 *     where it was not
 */
public record VisitPoint(
    ScanIdentity scan,
    LocalDate date,
    long days,
    VisitValue value,
    double coveredFraction,
    String alignment) {
  /** The alignment of the visit that the others are put on. */
  public static final String FIRST = "first";

  public VisitPoint {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(date, "date");
    Objects.requireNonNull(value, "value");
    Objects.requireNonNull(alignment, "alignment");
  }

  /** Returns the number, or empty. */
  public Optional<VisitValue.Given> given() {
    return value instanceof VisitValue.Given number ? Optional.of(number) : Optional.empty();
  }
}
