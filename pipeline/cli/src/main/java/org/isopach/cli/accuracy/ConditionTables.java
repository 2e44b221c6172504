package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.region.RegionKind;
import org.isopach.cli.page.Markdown;

/** The tables of all conditions: one row for each, one column for each boundary. */
final class ConditionTables {
  private final Markdown page;
  private final List<ConditionResult> results;

  ConditionTables(Markdown page, List<ConditionResult> results) {
    this.page = page;
    this.results = results;
  }

  void addAll() {
    depths();
    gross();
    warned();
    missing();
    sectors();
    regions();
    empty();
  }

  private void depths() {
    page.heading(3, "Depths")
        .paragraph(
            "Mean absolute error in µm over A-scans that have the boundary and were given a depth,"
                + " and its 95 % interval.")
        .table(
            header(),
            rows(
                (result, boundary) ->
                    Markdown.number(result.depth(boundary).meanAbsolute(), 1)
                        + interval(result, boundary, DepthTally::meanAbsolute, 1)));
    page.paragraph("Bias in µm, positive where found too deep.")
        .table(
            header(),
            rows((result, boundary) -> Markdown.number(result.depth(boundary).bias(), 1)));
  }

  private void gross() {
    page.heading(3, "Gross failures")
        .paragraph(
            "Share in % of A-scans that have the boundary whose depth is more than 20 µm off, and"
                + " its 95 % interval.")
        .table(
            header(),
            rows(
                (result, boundary) ->
                    percent(result.depth(boundary).grossShare(), 2)
                        + interval(result, boundary, tally -> 100 * tally.grossShare(), 1)));
  }

  private void warned() {
    page.paragraph("Share in % of these failures with a confidence below 0.5 (number of failures).")
        .table(
            header(),
            rows(
                (result, boundary) -> {
                  DepthTally tally = result.depth(boundary);
                  return percent(tally.warnedShare(), 0) + " (" + tally.gross() + ")";
                }));
  }

  private void missing() {
    page.paragraph(
            "Share in % of A-scans that have the boundary but got no depth / share of those without"
                + " it (disc, atrophy, out of the frame) that got one / that got one with a"
                + " confidence of 0.5 or more.")
        .table(
            header(),
            rows(
                (result, boundary) -> {
                  DepthTally tally = result.depth(boundary);
                  return percent(tally.missingShare(), 1)
                      + " / "
                      + percent(tally.inventedShare(), 0)
                      + " / "
                      + percent(tally.inventedSilentlyShare(), 0);
                }));
  }

  private static String percent(double share, int decimals) {
    return Markdown.number(100 * share, decimals);
  }

  private static String interval(
      ConditionResult result,
      Boundary boundary,
      ToDoubleFunction<DepthTally> figure,
      int decimals) {
    return " "
        + Bootstrap.interval(
                result.scans(),
                scans -> figure.applyAsDouble(ConditionResult.depth(scans, boundary)))
            .text(decimals);
  }

  private static List<String> header() {
    List<String> header = new ArrayList<>(List.of("condition"));
    Arrays.stream(Boundary.values()).map(Boundary::code).forEach(header::add);
    return header;
  }

  /** What is said of a boundary under a condition. */
  private interface Cell {
    String of(ConditionResult result, Boundary boundary);
  }

  private List<List<String>> rows(Cell cell) {
    List<List<String>> rows = new ArrayList<>();
    for (ConditionResult result : results) {
      List<String> row = new ArrayList<>(List.of(result.name()));
      for (Boundary boundary : Boundary.values()) {
        row.add(cell.of(result, boundary));
      }
      rows.add(row);
    }
    return rows;
  }

  private void sectors() {
    List<List<String>> rows = new ArrayList<>();
    for (ConditionResult result : results) {
      List<String> row = new ArrayList<>(List.of(result.name()));
      row.add(result.scans().size() + " / " + result.refused());
      for (Layer layer : ConditionScorer.LAYERS) {
        PlaceErrors errors = ConditionResult.sectors(result.scans(), layer);
        row.add(
            Markdown.number(errors.meanAbsolute(), 1)
                + " "
                + Bootstrap.interval(
                        result.scans(),
                        scans -> ConditionResult.sectors(scans, layer).meanAbsolute())
                    .text(1));
        row.add(Markdown.number(errors.bias(), 1));
        row.add(Markdown.number(errors.worst(), 1));
        row.add(errors.within(ConditionBars.SECTOR_UM) + "/" + errors.measured());
        row.add(Integer.toString(errors.refused()));
      }
      rows.add(row);
    }
    List<String> header = new ArrayList<>(List.of("condition", "scans / refused"));
    for (Layer layer : ConditionScorer.LAYERS) {
      header.add(layer.name() + " mean abs.");
      header.addAll(List.of("bias", "worst", "within 5 µm", "refused"));
    }
    page.heading(3, "Sectors")
        .paragraph(
            "Means of the nine sectors, the grid on the true fovea, less the truth, in µm."
                + " ILM-RPE-inner is the neurosensory retina with the fluid under it.")
        .table(header, rows);
  }

  private void regions() {
    List<List<String>> rows = new ArrayList<>();
    for (ConditionResult result : results) {
      for (RegionKind kind : RegionKind.values()) {
        RegionFigures figures = RegionFigures.of(result.scans(), kind);
        if (!figures.judged().isEmpty()) {
          rows.add(figures.row(result));
        }
      }
    }
    page.heading(3, "Regions")
        .paragraph(
            "Scans in which the frames hold more than 5 nL (0.005 mm³) of a kind. Dice of all its"
                + " voxels; volume found less that of the true voxels of the same frames; volume"
                + " found within 5 mm around the true fovea less that of the anatomy, which the"
                + " frames, 0.25 mm apart, only sample. Near: within 10 % or 2 nL.")
        .table(RegionFigures.HEADER, rows);
  }

  private void empty() {
    List<List<String>> rows = new ArrayList<>();
    for (ConditionResult result : results) {
      List<ConditionScan> without =
          result.scans().stream()
              .filter(s -> s.regions().values().stream().allMatch(r -> r.trueNl() == 0))
              .toList();
      if (!without.isEmpty()) {
        rows.add(
            List.of(
                result.name(),
                Integer.toString(without.size()),
                Long.toString(without.stream().filter(s -> s.labelled() > 0).count()),
                Markdown.number(
                    without.stream().mapToDouble(ConditionScan::labelledNl).max().orElse(0), 2)));
      }
    }
    page.paragraph("Scans that hold none of the kinds:")
        .table(List.of("condition", "scans", "with any voxel labelled", "most labelled, nL"), rows);
  }
}
