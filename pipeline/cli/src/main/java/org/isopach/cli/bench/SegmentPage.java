package org.isopach.cli.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.cli.page.Markdown;

/**
 * The figures of segmentation alone.
 *
 * @param speeds by number of frames, growing
 * @param modelMillis processor time of the tissue model for a frame, its picture included
 * @param routes the search beside another program's; empty when that is missing
 */
record SegmentPage(
    List<SegmentSpeed.Row> speeds, double modelMillis, Optional<List<RouteTrial.Row>> routes) {
  private static final double MOST_MILLIS = 12;
  private static final double MOST_SECONDS = 2;
  private static final double EVEN = 1.1;
  private static final double LEAST_RATIO = 50;
  private static final double KIB = 1024;

  SegmentPage {
    speeds = List.copyOf(speeds);
    routes = routes.map(List::copyOf);
  }

  void addTo(Markdown page) {
    page.heading(2, "Segmentation")
        .paragraph(
            "All boundaries and regions of frames of 512 A-scans and 496 depths held in memory,"
                + " warm. Processor time on one thread and least of three turns; the whole volume"
                + " on two threads by the clock.")
        .table(List.of("figure", "found", "bar", "met"), bars());
    page.table(
        List.of("frames", "ms per frame, one thread", "s per volume, two threads", "KiB per frame"),
        speeds.stream()
            .map(
                row ->
                    List.of(
                        Integer.toString(row.frames()),
                        Markdown.number(row.millisPerFrame(), 2),
                        Markdown.number(row.seconds(), 2),
                        Markdown.number(row.bytesPerFrame() / KIB, 0)))
            .toList());
    page.paragraph(
        "Of these the tissue model takes "
            + Markdown.number(modelMillis, 2)
            + " ms per frame, its decoding and averaging included.");
    addRoutes(page);
  }

  private void addRoutes(Markdown page) {
    page.heading(3, "One path beside scikit-image");
    if (routes.isEmpty()) {
      page.paragraph("Not measured: no Python with scikit-image (Debian: python3-skimage) here.");
      return;
    }
    page.paragraph(
            "The cheapest path from the first to the last column of the same picture of costs, one"
                + " after the other; the cost of a path is the sum over the cells it visits. Ours"
                + " moves from column to column by at most a row; `route_through_array` moves in"
                + " all eight directions, which can only be as cheap or cheaper. With our moves"
                + " only, scikit-image must come to the same cost. From tissue: costs as the"
                + " segmentation has them, each column's least moved to 1. Whole frame: a plain"
                + " step of grey.")
        .table(
            List.of(
                "costs",
                "columns x rows",
                "ours ms",
                "with moves to 8 rows ms",
                "route_through_array ms",
                "ratio",
                "our cost",
                "its cost",
                "ours more by",
                "scikit-image with our moves: ms",
                "cost"),
            routes.get().stream().map(SegmentPage::route).toList());
  }

  private static List<String> route(RouteTrial.Row row) {
    return List.of(
        row.what(),
        row.size(),
        Markdown.number(row.ourMillis(), 3),
        Markdown.number(row.wideMillis(), 3),
        Markdown.number(row.theirMillis(), 1),
        Markdown.number(row.ratio(), 0),
        Markdown.number(row.ourCost(), 3),
        Markdown.number(row.theirCost(), 3),
        Markdown.percent(row.excess(), 4),
        Markdown.number(row.forwardMillis(), 1),
        Markdown.number(row.forwardCost(), 3));
  }

  private List<List<String>> bars() {
    List<List<String>> rows = new ArrayList<>();
    double millis = speeds.stream().mapToDouble(SegmentSpeed.Row::millisPerFrame).max().orElse(0);
    rows.add(row("all boundaries of a frame, one thread, ms", millis, 1, "≤ 12", MOST_MILLIS));
    SegmentSpeed.Row longest = speeds.get(speeds.size() - 1);
    String volume = "volume of " + longest.frames() + " frames, two threads, s";
    rows.add(row(volume, longest.seconds(), 2, "≤ 2", MOST_SECONDS));
    SegmentSpeed.Row shortest = speeds.get(0);
    String by = longest.frames() + " by " + shortest.frames() + " frames";
    double time = longest.millisPerFrame() / shortest.millisPerFrame();
    rows.add(row("time per frame, " + by, time, 2, "≤ 1.1", EVEN));
    double bytes = longest.bytesPerFrame() / shortest.bytesPerFrame();
    rows.add(row("allocation per frame, " + by, bytes, 3, "≤ 1.1", EVEN));
    routes.ifPresent(
        all -> {
          rows.add(ratio("one path from tissue, scikit-image's time by ours, least", all, true));
          rows.add(ratio("one path in a whole frame, the same", all, false));
          double excess = all.stream().mapToDouble(RouteTrial.Row::excess).max().orElse(0);
          rows.add(
              List.of(
                  "one path, our cost above its, most",
                  Markdown.percent(excess, 4),
                  "≤ 0 %",
                  verdict(Math.round(excess * 1e6) <= 0)));
        });
    return rows;
  }

  private static List<String> ratio(String figure, List<RouteTrial.Row> all, boolean tissue) {
    double least =
        all.stream()
            .filter(row -> row.what().endsWith(RouteTrial.FROM_TISSUE) == tissue)
            .mapToDouble(RouteTrial.Row::ratio)
            .min()
            .orElse(Double.NaN);
    return List.of(figure, Markdown.number(least, 0), "≥ 50", verdict(least >= LEAST_RATIO));
  }

  private static List<String> row(
      String figure, double value, int decimals, String bar, double limit) {
    return List.of(figure, Markdown.number(value, decimals), bar, verdict(value <= limit));
  }

  private static String verdict(boolean met) {
    return met ? "yes" : "**no**";
  }
}
