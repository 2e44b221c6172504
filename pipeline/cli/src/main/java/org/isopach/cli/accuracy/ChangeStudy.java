package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.change.PointNoise;
import org.isopach.analysis.change.RepeatNoise;
import org.isopach.analysis.layer.Layer;
import org.isopach.cli.page.Markdown;

/** Writes the page on whether the uncertainty of a change is what it says. */
final class ChangeStudy {
  private static final int REPEATS = 12;
  private static final int EYES = 40;
  private static final int BLOCKS = 50;
  private static final int PAIRS = 20;
  private static final int QUICK_BLOCKS = 5;
  private static final int QUICK_REPEATS = 3;
  private static final int QUICK_EYES = 2;

  private final Chain chain;
  private final Progress progress;

  ChangeStudy(Chain chain, Progress progress) {
    this.chain = chain;
    this.progress = progress;
  }

  /** Adds all parts to a page. */
  void addTo(Markdown page, boolean quick) throws InterruptedException {
    simulated(page, quick);
    int repeats = quick ? QUICK_REPEATS : REPEATS;
    int eyes = quick ? QUICK_EYES : EYES;
    PhantomChange.Result result = new PhantomChange(chain, progress).run(repeats, eyes);
    page.heading(2, "Rendered and measured pairs")
        .paragraph(
            eyes
                + " healthy phantom eyes scanned three times: twice without a change and once with"
                + " a swelling of 15 µm, 1 mm wide at half height (Gaussian), within 2 mm of the"
                + " fovea. Place, tilt, torsion, motion, brightness and speckle are drawn anew for"
                + " every scan. Each eye is judged by the pairs without a change of the next "
                + repeats
                + " eyes. Sectors include the total.");
    figures(page, result);
    noise(page, result.noise());
  }

  void simulated(Markdown page, boolean quick) throws InterruptedException {
    int blocks = quick ? QUICK_BLOCKS : BLOCKS;
    List<ChangeOutcome> still = new ArrayList<>();
    List<ChangeOutcome> swollen = new ArrayList<>();
    for (SimulatedChange.Result result :
        chain.all(
            progress.watching(
                "blocks of simulated pairs",
                new SimulatedChange().blocks(blocks, REPEATS, PAIRS)))) {
      still.addAll(result.still());
      swollen.addAll(result.swollen());
    }
    page.heading(2, "Simulated pairs")
        .paragraph(
            still.size()
                + " pairs of ILM-BM maps: the anatomy of a phantom eye sampled about two centres"
                + " that differ by an error of 0.031 mm along each axis, drawn noise, in one map"
                + " of five a disc of 0.7 mm without values. The noise is drawn by code of its own"
                + " and differs between eyes by 15 % (SD). Each block of "
                + PAIRS
                + " pairs is judged by "
                + REPEATS
                + " pairs of repeats of other eyes. Then the same pairs with a swelling of 15 µm, 1"
                + " mm wide at half height, within 2 mm of the fovea.");
    ChangeFigures none = ChangeFigures.of(still);
    ChangeFigures change = ChangeFigures.of(swollen);
    page.table(
        header(),
        List.of(row(Layer.ILM_BM.name(), "none", none), row(Layer.ILM_BM.name(), "15 µm", change)));
    bars(page, none, change);
  }

  private static void bars(Markdown page, ChangeFigures none, ChangeFigures change) {
    page.table(
        List.of("figure", "found", "bar", "met"),
        List.of(
            bar("intervals that hold the truth, no change", none.coverage(), 0.93, 0.97),
            bar("intervals that hold the truth, 15 µm", change.coverage(), 0.93, 0.97),
            bar("sectors called changed, no change", none.called(), 0, 0.05),
            bar("area called changed, no change", none.changedArea(), 0, 0.01),
            bar("swellings of 15 µm found", change.detected(), 0.90, 1)));
  }

  private static List<String> bar(String figure, double found, double low, double high) {
    return List.of(
        figure,
        Markdown.percent(found, 2),
        Markdown.percent(low, 0) + " to " + Markdown.percent(high, 0),
        found >= low && found <= high ? "yes" : "**no**");
  }

  static void figures(Markdown page, PhantomChange.Result result) {
    List<List<String>> rows = new ArrayList<>();
    for (Layer layer : PhantomChange.layers()) {
      rows.add(row(layer.name(), "none", of(result.still(), layer)));
      rows.add(row(layer.name(), "15 µm", of(result.swollen(), layer)));
    }
    page.table(header(), rows);
    if (!result.refusals().isEmpty()) {
      page.paragraph("Refused: " + String.join("; ", result.refusals()) + ".");
    }
  }

  static List<String> header() {
    return List.of(
        "layer",
        "change",
        "pairs",
        "intervals",
        "hold the truth",
        "sectors called changed",
        "area called changed",
        "swelling found");
  }

  static List<String> row(String layer, String change, ChangeFigures figures) {
    boolean none = change.equals("none");
    return List.of(
        layer,
        change,
        Integer.toString(figures.pairs()),
        Integer.toString(figures.intervals()),
        Markdown.percent(figures.coverage(), 1),
        Markdown.percent(figures.called(), 2),
        Markdown.percent(figures.changedArea(), 2),
        none ? "–" : Markdown.percent(figures.detected(), 1));
  }

  private static ChangeFigures of(List<ChangeOutcome> outcomes, Layer layer) {
    return ChangeFigures.of(outcomes.stream().filter(one -> one.layer().equals(layer)).toList());
  }

  static void noise(Markdown page, Map<Layer, RepeatNoise> noise) {
    page.heading(3, "The noise it rests on")
        .paragraph(
            "Within-subject standard deviation in µm: of a sector's mean / of a place of the"
                + " smoothed map.");
    List<List<String>> rows = new ArrayList<>();
    for (String sector : SectorTruth.PLACES.subList(0, SectorTruth.PLACES.size() - 1)) {
      List<String> row = new ArrayList<>(List.of(sector));
      for (Layer layer : PhantomChange.layers()) {
        row.add(cell(noise.get(layer), sector));
      }
      rows.add(row);
    }
    List<String> header = new ArrayList<>(List.of("sector"));
    PhantomChange.layers().forEach(layer -> header.add(layer.name()));
    page.table(header, rows);
    for (Layer layer : PhantomChange.layers()) {
      PointNoise points = noise.get(layer).points().orElseThrow();
      page.paragraph(
          layer.name()
              + ": tails of "
              + Markdown.number(points.tailDegrees(), 1)
              + " degrees of freedom, correlation length "
              + Markdown.number(points.correlationLengthMm(), 2)
              + " mm, regions from "
              + Markdown.number(points.minimumAreaMm2(), 2)
              + " mm².");
    }
  }

  private static String cell(RepeatNoise noise, String sector) {
    String mean = noise.sector(sector).map(one -> Markdown.number(one.sdUm(), 2)).orElse("–");
    PointNoise.Spot spot = noise.points().orElseThrow().spots().get(sector);
    return mean + " / " + (spot == null ? "–" : Markdown.number(spot.sdUm(), 2));
  }
}
