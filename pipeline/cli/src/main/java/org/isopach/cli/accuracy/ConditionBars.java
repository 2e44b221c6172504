package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.isopach.analysis.layer.Boundary;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.Condition;

/**
 * The figures of the conditions that have a limit. The choroid's outer border is shown in the
 * tables and not judged.
 */
final class ConditionBars {
  static final double SECTOR_UM = 5;
  static final double DICE = 0.85;
  private static final double STRONG_UM = 2;
  private static final double INNER_UM = 2.5;
  private static final double POOR_UM = 4;
  private static final double GROSS_SHARE = 0.01;
  private static final double WARNED_SHARE = 0.95;
  private static final List<Boundary> STRONG = List.of(Boundary.ILM, Boundary.RPE, Boundary.BM);
  private static final List<Boundary> JUDGED =
      Arrays.stream(Boundary.values()).filter(b -> b != Boundary.CHOROID_SCLERA).toList();
  private static final List<Boundary> INNER =
      JUDGED.stream().filter(b -> !STRONG.contains(b)).toList();

  private final Markdown page;
  private final List<ConditionResult> results;
  private final List<List<String>> rows = new ArrayList<>();

  private ConditionBars(Markdown page, List<ConditionResult> results) {
    this.page = page;
    this.results = results;
  }

  static void addTo(Markdown page, List<ConditionResult> results) {
    ConditionBars bars = new ConditionBars(page, results);
    bars.depths(Condition.HEALTHY, STRONG, STRONG_UM);
    bars.depths(Condition.HEALTHY, INNER, INNER_UM);
    bars.depths(Condition.POOR_SNR, JUDGED, POOR_UM);
    bars.healthyLesions();
    bars.regions();
    page.table(List.of("figure", "found", "95 % interval", "bar", "within", "met"), bars.rows);
    bars.conditions();
  }

  private ConditionResult result(Condition condition) {
    return results.stream().filter(r -> r.condition() == condition).findFirst().orElseThrow();
  }

  /** Every boundary must keep the limit; the worst is shown. */
  private void depths(Condition condition, List<Boundary> boundaries, double limit) {
    ConditionResult result = result(condition);
    Boundary worst = worst(result, boundaries, DepthTally::meanAbsolute);
    long within = boundaries.stream().filter(b -> result.depth(b).meanAbsolute() <= limit).count();
    rows.add(
        List.of(
            result.name() + ": worst mean absolute error of " + names(boundaries),
            worst.code() + " " + Markdown.number(result.depth(worst).meanAbsolute(), 2) + " µm",
            Bootstrap.interval(result.scans(), s -> ConditionResult.depth(s, worst).meanAbsolute())
                .text(2),
            "≤ " + Markdown.number(limit, 1) + " µm",
            within + "/" + boundaries.size(),
            verdict(within == boundaries.size())));
  }

  private static String names(List<Boundary> boundaries) {
    if (boundaries.equals(STRONG)) {
      return "ILM, RPE, BM";
    }
    return boundaries.equals(INNER) ? "the eight between" : "these eleven";
  }

  /** NaN, where no depth was found at all, is worst of all. */
  private static Boundary worst(
      ConditionResult result, List<Boundary> boundaries, ToDoubleFunction<DepthTally> figure) {
    return boundaries.stream()
        .max(Comparator.comparingDouble(b -> figure.applyAsDouble(result.depth(b))))
        .orElseThrow();
  }

  private void healthyLesions() {
    ConditionResult healthy = result(Condition.HEALTHY);
    long labelled = healthy.scans().stream().filter(s -> s.labelled() > 0).count();
    rows.add(
        List.of(
            "healthy: scans in which any voxel is labelled",
            Long.toString(labelled),
            "–",
            "0",
            healthy.scans().size() - labelled + "/" + healthy.scans().size(),
            verdict(labelled == 0)));
  }

  private void regions() {
    List<RegionScore> all = new ArrayList<>();
    results.forEach(result -> all.addAll(RegionFigures.fluids(result.scans())));
    if (all.isEmpty()) {
      return;
    }
    double least = all.stream().mapToDouble(s -> s.overlap().dice()).min().orElseThrow();
    long alike = all.stream().filter(s -> s.overlap().dice() >= DICE).count();
    rows.add(share("fluid over 5 nL: least Dice of a scan and kind", least, "≥ 0.85", alike, all));
    long near = all.stream().filter(RegionScore::volumeNear).count();
    double nearShare = (double) near / all.size();
    String volume = "fluid over 5 nL: share of volumes within 10 % or 2 nL of ";
    rows.add(share(volume + "the frames' truth", nearShare, "1", near, all));
    long anatomy = all.stream().filter(RegionScore::anatomyNear).count();
    double anatomyShare = (double) anatomy / all.size();
    rows.add(share(volume + "the anatomy", anatomyShare, "–", anatomy, all));
  }

  private static List<String> share(
      String figure, double value, String bar, long within, List<RegionScore> all) {
    return List.of(
        figure,
        Markdown.number(value, 3),
        "–",
        bar,
        within + "/" + all.size(),
        bar.equals("–") ? "–" : verdict(within == all.size()));
  }

  /** One row for each condition, sick eyes first, then the traps of the picture. */
  private void conditions() {
    List<List<String>> table = new ArrayList<>();
    for (boolean sick : new boolean[] {true, false}) {
      for (ConditionResult result : results) {
        if (result.pathology() == sick && result.condition() != Condition.HEALTHY) {
          table.add(row(result));
        }
      }
    }
    page.paragraph(
            "Every sector of the neurosensory retina (ILM to the pigment epithelium's inner border,"
                + " fluid included) must be within 5 µm; of no boundary may more than 1 % of the"
                + " A-scans be off by more than 20 µm; of those that are, 95 % must warn with a"
                + " confidence below 0.5. Sick eyes first, then traps.")
        .table(
            List.of(
                "condition",
                "sectors ≤ 5 µm",
                "worst sector µm",
                "boundaries ≤ 1 % gross",
                "worst boundary",
                "all boundaries gross",
                "95 % interval",
                "of these below 0.5",
                "scans refused",
                "met"),
            table);
  }

  private static List<String> row(ConditionResult result) {
    PlaceErrors sectors = ConditionResult.sectors(result.scans(), ConditionScorer.NEUROSENSORY);
    Boundary worst = worst(result, JUDGED, DepthTally::grossShare);
    long calm = JUDGED.stream().filter(b -> result.depth(b).grossShare() <= GROSS_SHARE).count();
    DepthTally all = all(result.scans());
    boolean warned = all.gross() == 0 || all.warnedShare() >= WARNED_SHARE;
    boolean near = sectors.measured() > 0 && sectors.within(SECTOR_UM) == sectors.measured();
    return List.of(
        result.name(),
        sectors.within(SECTOR_UM) + "/" + sectors.measured(),
        Markdown.number(sectors.worst(), 1),
        calm + "/" + JUDGED.size(),
        worst.code() + " " + Markdown.percent(result.depth(worst).grossShare(), 2),
        Markdown.percent(all.grossShare(), 2),
        Bootstrap.interval(result.scans(), scans -> 100 * all(scans).grossShare()).text(2),
        Markdown.percent(all.warnedShare(), 1),
        result.refused() + "/" + result.scans().size(),
        verdict(near && calm == JUDGED.size() && warned));
  }

  private static DepthTally all(List<ConditionScan> scans) {
    return DepthTally.sum(
        JUDGED.stream().flatMap(b -> scans.stream().map(s -> s.depths().get(b))).toList());
  }

  private static String verdict(boolean met) {
    return met ? "yes" : "**no**";
  }
}
