package org.isopach.cli.accuracy;

import java.util.List;

/**
 * The figures of many judged pairs.
 *
 * @param pairs number of pairs and layers
 * @param intervals sectors and totals with an interval
 * @param coverage share of them that hold the true change
 * @param called share of them called changed
 * @param changedArea share of the area judged that was called changed
 * @param detected share of the pairs whose swelling was found in the map
 */
record ChangeFigures(
    int pairs, int intervals, double coverage, double called, double changedArea, double detected) {

  static ChangeFigures of(List<ChangeOutcome> outcomes) {
    int intervals = outcomes.stream().mapToInt(ChangeOutcome::intervals).sum();
    double covering = outcomes.stream().mapToInt(ChangeOutcome::covering).sum();
    double called = outcomes.stream().mapToInt(ChangeOutcome::called).sum();
    double changed = outcomes.stream().mapToDouble(ChangeOutcome::changedMm2).sum();
    double looked = outcomes.stream().mapToDouble(ChangeOutcome::lookedAtMm2).sum();
    double detected = outcomes.stream().filter(ChangeOutcome::detected).count();
    return new ChangeFigures(
        outcomes.size(),
        intervals,
        covering / intervals,
        called / intervals,
        changed / looked,
        detected / outcomes.size());
  }
}
