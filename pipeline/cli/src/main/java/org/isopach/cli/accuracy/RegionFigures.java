package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.region.RegionKind;
import org.isopach.cli.page.Markdown;

/**
 * What can be said about one kind of region in several scans.
 *
 * @param kind the kind
 * @param judged the scans that hold enough of it
 */
record RegionFigures(RegionKind kind, List<RegionScore> judged) {
  /** Names of the columns of {@link #row}. */
  static final List<String> HEADER =
      List.of(
          "condition",
          "kind",
          "scans",
          "Dice, mean",
          "least",
          "Dice ≥ 0.85",
          "true nL, median",
          "difference nL, median abs.",
          "near",
          "difference to the anatomy nL, median abs.",
          "near ");

  RegionFigures {
    judged = List.copyOf(judged);
  }

  static RegionFigures of(List<ConditionScan> scans, RegionKind kind) {
    return new RegionFigures(
        kind,
        scans.stream().map(scan -> scan.regions().get(kind)).filter(RegionScore::judged).toList());
  }

  /** Returns the scores of all kinds of fluid, and of raised epithelium, in some scans. */
  static List<RegionScore> fluids(List<ConditionScan> scans) {
    List<RegionScore> scores = new ArrayList<>();
    for (RegionKind kind : RegionKind.values()) {
      if (kind != RegionKind.HYPERREFLECTIVE_MATERIAL) {
        scores.addAll(of(scans, kind).judged());
      }
    }
    return scores;
  }

  /** Returns the mean Dice, NaN without scans. */
  double meanDice() {
    return judged.stream().mapToDouble(s -> s.overlap().dice()).average().orElse(Double.NaN);
  }

  /** Returns the smallest Dice, NaN without scans. */
  double leastDice() {
    return judged.stream().mapToDouble(s -> s.overlap().dice()).min().orElse(Double.NaN);
  }

  List<String> row(ConditionResult result) {
    String n = "/" + judged.size();
    return List.of(
        result.name(),
        kind.code(),
        Integer.toString(judged.size()),
        Markdown.number(meanDice(), 3)
            + " "
            + Bootstrap.interval(result.scans(), scans -> of(scans, kind).meanDice()).text(2),
        Markdown.number(leastDice(), 3),
        judged.stream().filter(s -> s.overlap().dice() >= ConditionBars.DICE).count() + n,
        Markdown.number(median(judged.stream().mapToDouble(RegionScore::trueNl).toArray()), 0),
        Markdown.number(
            median(judged.stream().mapToDouble(s -> Math.abs(s.foundNl() - s.trueNl())).toArray()),
            1),
        judged.stream().filter(RegionScore::volumeNear).count() + n,
        Markdown.number(
            median(
                judged.stream()
                    .mapToDouble(s -> Math.abs(s.foundInCircleNl() - s.anatomyNl()))
                    .toArray()),
            1),
        judged.stream().filter(RegionScore::anatomyNear).count() + n);
  }

  private static double median(double[] values) {
    double[] sorted = values.clone();
    java.util.Arrays.sort(sorted);
    int half = sorted.length / 2;
    return sorted.length % 2 == 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
  }
}
