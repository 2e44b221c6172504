package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.isopach.analysis.layer.Boundary;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.Condition;

/** Whether confidence is what it says, by boundary, healthy and sick scans apart. */
final class ConfidenceTables {
  private static final String PICTURE =
      "![Share of depths within 2 px by confidence, one panel for each boundary]"
          + "(images/confidence.png)";
  private static final int NEAR_FROM = 17;
  private static final int NEAR_END = 19;
  private static final double TOLERANCE = 0.05;
  private static final long LEAST_COUNT = 100;
  private static final int[] EDGES = {0, 2, 4, 6, 8, 10, 12, 14, 16, 18, 19, 20};

  private final Markdown page;
  private final List<ConditionScan> healthy;
  private final List<ConditionScan> sick;

  ConfidenceTables(Markdown page, List<ConditionResult> results) {
    this.page = page;
    this.healthy = scans(results, true);
    this.sick = scans(results, false);
  }

  private static List<ConditionScan> scans(List<ConditionResult> results, boolean healthy) {
    return results.stream()
        .filter(result -> (result.condition() == Condition.HEALTHY) == healthy)
        .flatMap(result -> result.scans().stream())
        .toList();
  }

  /** Returns the healthy scans' depths of a boundary. */
  Reliability healthy(Boundary boundary) {
    return of(healthy, boundary);
  }

  /** Returns the depths of a boundary in the scans of all other conditions. */
  Reliability sick(Boundary boundary) {
    return of(sick, boundary);
  }

  private static Reliability of(List<ConditionScan> scans, Boundary boundary) {
    return Reliability.sum(scans.stream().map(scan -> scan.confidence().get(boundary)).toList());
  }

  void addAll() {
    page.heading(2, "Confidence")
        .paragraph(
            "A confidence of 0.9 should mean that nine in ten depths are within 2 px (7.7 µm) of"
                + " the truth. Sick: all conditions but the healthy one, an equal number of eyes"
                + " each. The share right is that of depths with a confidence from 0.85 to 0.95,"
                + " and met within 0.05 of their mean confidence. The last figure is the mean"
                + " distance of confidence and share right over all depths.")
        .paragraph(PICTURE);
    List<List<String>> rows = new ArrayList<>();
    for (Boundary boundary : Boundary.values()) {
      rows.add(row(boundary, "healthy", healthy));
      rows.add(row(boundary, "sick", sick));
    }
    page.table(
        List.of(
            "boundary",
            "scans",
            "depths near 0.9",
            "mean confidence",
            "share right",
            "95 % interval",
            "met",
            "mean distance, all"),
        rows);
    steps("Healthy scans", healthy);
    steps("Sick scans", sick);
  }

  private static List<String> row(Boundary boundary, String which, List<ConditionScan> scans) {
    Reliability all = of(scans, boundary);
    long count = all.count(NEAR_FROM, NEAR_END);
    double right = all.rightShare(NEAR_FROM, NEAR_END);
    double said = all.meanConfidence(NEAR_FROM, NEAR_END);
    String met = Math.abs(right - said) <= TOLERANCE ? "yes" : "**no**";
    return List.of(
        boundary.code(),
        which,
        Long.toString(count),
        Markdown.number(said, 3),
        Markdown.number(right, 3),
        Bootstrap.interval(scans, some -> of(some, boundary).rightShare(NEAR_FROM, NEAR_END))
            .text(2),
        count < LEAST_COUNT ? "–" : met,
        Markdown.number(all.miscalibration(), 3));
  }

  private void steps(String title, List<ConditionScan> scans) {
    List<String> header = new ArrayList<>(List.of("confidence"));
    List<Reliability> all = new ArrayList<>();
    for (Boundary boundary : Boundary.values()) {
      header.add(boundary.code());
      all.add(of(scans, boundary));
    }
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i + 1 < EDGES.length; i++) {
      int from = EDGES[i];
      int end = EDGES[i + 1];
      List<String> row = new ArrayList<>(List.of(edge(from) + " to " + edge(end)));
      for (Reliability one : all) {
        row.add(Markdown.percent(one.rightShare(from, end), 0) + " (" + one.count(from, end) + ")");
      }
      rows.add(row);
    }
    page.heading(3, title)
        .paragraph("Share of depths within 2 px of the truth, by confidence (number of depths).")
        .table(header, rows);
  }

  private static String edge(int step) {
    return String.format(Locale.ROOT, "%.2f", (double) step / Reliability.STEPS);
  }
}
