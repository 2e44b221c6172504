package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.cli.page.Markdown;

/** The tables behind the bars. */
final class Details {
  private static final double TAIL = 0.95;
  private static final List<Boundary> VARIED =
      List.of(Boundary.ILM, Boundary.EZ, Boundary.RPE, Boundary.BM);

  private final Markdown page;

  Details(Markdown page) {
    this.page = page;
  }

  void boundaries(List<ScanScore> scores) {
    List<List<String>> rows = new ArrayList<>();
    for (Boundary boundary : ScanScore.BOUNDARIES) {
      ErrorTally tally = depth(scores, boundary);
      rows.add(
          List.of(
              boundary.code(),
              um(tally.meanAbsolute()),
              um(tally.bias()),
              um(tally.spread()),
              um(tally.percentile(0.5)),
              um(tally.percentile(TAIL)),
              um(tally.percentile(0.99)),
              Markdown.percent(tally.missingShare(), 2),
              Markdown.percent(tally.inventedShare(), 1)));
    }
    page.heading(3, "Boundaries")
        .paragraph(
            "Found depth minus true depth in µm, over all A-scans where the boundary is in the"
                + " frame; a positive bias is too deep. The last column is the share of A-scans"
                + " without the boundary (optic disc) in which a depth was given.")
        .table(
            List.of(
                "boundary",
                "mean abs.",
                "bias",
                "SD",
                "median abs.",
                "95th pct.",
                "99th pct.",
                "without depth",
                "depth where none"),
            rows);
  }

  private static ErrorTally depth(List<ScanScore> scores, Boundary boundary) {
    return ErrorTally.sum(scores.stream().map(score -> score.depths().get(boundary)).toList());
  }

  /** Adds a table of errors by place, all layers side by side. */
  void places(PlaceErrors errors, double limitUm) {
    List<String> header = new ArrayList<>(List.of("place"));
    for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
      header.add(layer.name() + " mean abs.");
      header.addAll(List.of("bias", "worst (eye)", "within", "refused"));
    }
    List<List<String>> rows = new ArrayList<>();
    for (String place : SectorTruth.PLACES) {
      List<String> row = new ArrayList<>(List.of(place));
      for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
        PlaceErrors here = errors.layer(layer).place(place);
        row.add(um(here.meanAbsolute()));
        row.add(um(here.bias()));
        row.add(um(here.worst()) + " (" + here.worstPlace().split(" ", 2)[0] + ")");
        row.add(here.within(limitUm) + "/" + here.measured());
        row.add(Integer.toString(here.refused()));
      }
      rows.add(row);
    }
    page.paragraph("Within means by at most " + Markdown.number(limitUm, 1) + " µm.")
        .table(header, rows);
  }

  /** Adds what remains of the sectors' errors when the grid is put on the true fovea. */
  void centred(List<ScanScore> scores) {
    PlaceErrors all = PlaceErrors.of(scores.stream().map(ScanScore::centred).toList());
    List<List<String>> rows = new ArrayList<>();
    for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
      PlaceErrors sectors = all.layer(layer).sectors();
      PlaceErrors centre = all.layer(layer).place("centre");
      rows.add(
          List.of(
              layer.name(),
              um(sectors.meanAbsolute()),
              um(sectors.bias()),
              um(sectors.spread()),
              um(sectors.worst()),
              sectors.worstPlace(),
              sectors.within(Bars.SECTOR_UM) + "/" + sectors.measured(),
              um(centre.bias()),
              um(centre.worst())));
    }
    page.heading(4, "With the grid on the true fovea")
        .paragraph(
            "The same boundaries, the grid centred on the true fovea: what is left is not the"
                + " centre's doing.")
        .table(
            List.of(
                "layer",
                "mean abs.",
                "bias",
                "SD",
                "worst",
                "worst at",
                "within 2.5 µm",
                "centre bias",
                "centre worst"),
            rows);
  }

  void fovea(List<ScanScore> scores) {
    page.heading(3, "Fovea")
        .table(
            List.of("eyes", "median µm", "90th pct. µm", "worst µm", "within 60 µm", "not found"),
            List.of(foveaRow(scores)));
  }

  private static List<String> foveaRow(List<ScanScore> scores) {
    double[] found = foveas(scores);
    return List.of(
        Integer.toString(scores.size()),
        Markdown.number(quantile(found, 0.5), 0),
        Markdown.number(quantile(found, 0.9), 0),
        Markdown.number(quantile(found, 1), 0),
        Long.toString(Arrays.stream(found).filter(d -> d <= Bars.FOVEA_UM).count()),
        Integer.toString(scores.size() - found.length));
  }

  private static double[] foveas(List<ScanScore> scores) {
    return scores.stream()
        .map(ScanScore::foveaUm)
        .flatMapToDouble(OptionalDouble::stream)
        .sorted()
        .toArray();
  }

  private static double quantile(double[] sorted, double share) {
    if (sorted.length == 0) {
      return Double.NaN;
    }
    return sorted[(int) Math.ceil(share * (sorted.length - 1))];
  }

  void variations(List<VariationScore> variations) {
    page.heading(3, "Harder and easier scans")
        .paragraph(
            "The first eyes again, with one thing changed. Depth errors in µm: mean absolute /"
                + " 95th percentile. Sectors are those of ILM-BM: mean absolute and worst error in"
                + " µm, and number refused.");
    String group = "";
    List<List<String>> rows = new ArrayList<>();
    for (VariationScore one : variations) {
      if (!one.variation().group().equals(group)) {
        flush(group, rows);
        rows = new ArrayList<>();
        group = one.variation().group();
      }
      rows.add(row(one));
    }
    flush(group, rows);
  }

  private void flush(String group, List<List<String>> rows) {
    if (rows.isEmpty()) {
      return;
    }
    page.heading(4, group)
        .table(
            List.of(
                "scan",
                "eyes",
                "ILM",
                "EZ",
                "RPE",
                "BM",
                "without depth (BM)",
                "sectors mean",
                "sectors worst",
                "refused",
                "fovea median / worst µm",
                "fovea not found"),
            rows);
  }

  private static List<String> row(VariationScore one) {
    List<ScanScore> scores = one.scores();
    PlaceErrors sectors = PlaceErrors.ofScores(scores).layer(Layer.ILM_BM).sectors();
    double[] foveas = foveas(scores);
    List<String> row = new ArrayList<>();
    row.add(one.variation().name());
    row.add(Integer.toString(scores.size()));
    for (Boundary boundary : VARIED) {
      ErrorTally tally = depth(scores, boundary);
      row.add(um(tally.meanAbsolute()) + " / " + um(tally.percentile(TAIL)));
    }
    row.add(Markdown.percent(depth(scores, Boundary.BM).missingShare(), 2));
    row.add(um(sectors.meanAbsolute()));
    row.add(um(sectors.worst()));
    row.add(sectors.refused() + "/" + sectors.errors().size());
    row.add(
        Markdown.number(quantile(foveas, 0.5), 0)
            + " / "
            + Markdown.number(quantile(foveas, 1), 0));
    row.add(Integer.toString(scores.size() - foveas.length));
    return row;
  }

  private static String um(double value) {
    return Markdown.number(value, 2);
  }
}
