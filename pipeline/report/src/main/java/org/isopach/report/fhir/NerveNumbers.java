package org.isopach.report.fhir;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** The numbers of the nerve and the ganglion cells in one scan. */
final class NerveNumbers {
  private static final String QUADRANTS = "quadrants";

  private NerveNumbers() {}

  /**
   * Returns the numbers of a table.
   *
   * @param flags what was said of the scan
   * @param lengths what lengths are, in words
   */
  static List<FhirNumber> of(NerveTable table, List<FindingKind> flags, String lengths) {
    boolean round =
        !flags.contains(FindingKind.CIRCLE_OFF_DISC)
            && !flags.contains(FindingKind.DIAMETER_UNUSUAL);
    return table.values().stream().map(value -> number(table, value, round, lengths)).toList();
  }

  private static FhirNumber number(
      NerveTable table, NerveValue value, boolean round, String lengths) {
    String key =
        String.join(
            "/",
            table.role(),
            value.measure().code(),
            value.layer(),
            value.scheme(),
            value.sector());
    Optional<String> loinc = round ? loinc(table, value) : Optional.empty();
    return new FhirNumber(
        table.scan(),
        key,
        loinc,
        words(value),
        value.value(),
        value.measure().unit(),
        value.measure().decimals(),
        value.coveredFraction(),
        value.reason(),
        method(table) + ", " + lengths,
        loinc.isPresent() ? FhirPanel.FIBRES : FhirPanel.NERVE);
  }

  /** Quadrants have a code only where they are counted from the horizontal. */
  private static Optional<String> loinc(NerveTable table, NerveValue value) {
    boolean whole = value.scheme().isEmpty();
    boolean quadrant =
        value.scheme().equals(QUADRANTS) && table.zero().kind() == AngleZero.Kind.HORIZONTAL;
    return value.measure() == NerveMeasure.FIBRES && (whole || quadrant)
        ? LoincCodes.fibres(table.laterality(), value.sector())
        : Optional.empty();
  }

  private static String words(NerveValue value) {
    return String.join(" ", value.measure().code(), value.layer(), value.scheme(), value.sector())
        .replaceAll(" +", " ");
  }

  private static String method(NerveTable table) {
    String circle =
        table.diameterMm().isPresent()
            ? String.format(Locale.ROOT, ", circle of %.3f mm", table.diameterMm().getAsDouble())
            : "";
    return table.role() + circle + ", angles from " + table.zero().kind().code();
  }
}
