package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Says what of the nerve was refused, and why there are no normal limits. */
final class NerveFindings {
  /** Lines nearer than so many pixels of depth are not told apart, as for confidences; ours. */
  private static final int RESOLVED_PIXELS = 2;

  private NerveFindings() {}

  /** Returns the least thickness in µm whose two lines can be told apart. */
  static double resolvedUm(AxialScale scale) {
    return RESOLVED_PIXELS * scale.micrometresPerPixel();
  }

  /** Returns whether a thickness is smaller than its two lines can be told apart. */
  static boolean notResolved(NerveValue value, double resolvedUm) {
    boolean thickness =
        switch (value.measure()) {
          case FIBRES, RIM_WIDTH, GANGLION, GANGLION_MINIMUM -> true;
          default -> false;
        };
    return thickness && value.value().isPresent() && value.value().getAsDouble() < resolvedUm;
  }

  /** Names the places of a table whose layer is too thin to be sure of. */
  static Optional<Finding> ofResolution(NerveTable table, double resolvedUm, String subject) {
    String places =
        table.values().stream()
            .filter(value -> notResolved(value, resolvedUm))
            .map(
                value ->
                    String.join(
                            " ",
                            value.measure().code(),
                            value.layer(),
                            value.scheme(),
                            value.sector())
                        .replaceAll(" +", " "))
            .collect(Collectors.joining(", "));
    return places.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Finding(
                FindingKind.LAYER_NOT_RESOLVED,
                subject,
                String.format(
                    Locale.ROOT,
                    "thinner than two pixels of depth, %.2f µm: %s",
                    resolvedUm,
                    places)));
  }

  static List<Finding> of(NerveTable table, String subject) {
    List<Finding> findings = new ArrayList<>();
    List<String> refused = new ArrayList<>();
    for (NerveMeasure measure : List.of(NerveMeasure.FIBRES, NerveMeasure.RIM_WIDTH)) {
      String arcs = refused(table, measure);
      if (!arcs.isEmpty()) {
        refused.add(measure.code() + ": refused " + arcs);
      }
    }
    if (!refused.isEmpty()) {
      findings.add(new Finding(FindingKind.LOW_COVERAGE, subject, String.join("; ", refused)));
    }
    table.values().stream()
        .filter(value -> value.measure() == NerveMeasure.FIBRES && value.scheme().isEmpty())
        .flatMap(value -> value.place().stream())
        .filter(NormalPlace.NotPlaced.class::isInstance)
        .map(NormalPlace.NotPlaced.class::cast)
        .filter(place -> place.reason() != NormalPlace.Reason.NO_VALUE)
        .map(place -> new Finding(FindingKind.NO_NORMAL_LIMITS, subject, place.words()))
        .forEach(findings::add);
    return findings;
  }

  /**
   * Of a circle off the disc it is said already. Quadrants and clock hours are named; the arcs of
   * other schemes lie over the same places.
   */
  private static String refused(NerveTable table, NerveMeasure measure) {
    return table.values().stream()
        .filter(value -> value.measure() == measure && value.value().isEmpty())
        .filter(value -> !value.reason().startsWith(CircleFindings.OFF_DISC))
        .filter(
            value ->
                value.scheme().equals(ArcSchemes.QUADRANTS.name())
                    || value.scheme().equals(ArcSchemes.CLOCK_HOURS.name()))
        .map(NerveValue::sector)
        .collect(Collectors.joining(", "));
  }
}
