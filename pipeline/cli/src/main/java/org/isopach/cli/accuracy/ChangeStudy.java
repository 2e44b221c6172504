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
    int repeats = quick ? QUICK_REPEATS : REPEATS;
    int eyes = quick ? QUICK_EYES : EYES;
    PhantomChange.Result result = new PhantomChange(chain, progress).run(repeats, eyes);
    page.heading(2, "Rendered and measured pairs")
        .paragraph(
            eyes
                + " healthy phantom eyes scanned three times: twice without a change and once with"
                + " a swelling of 15 µm, 1 mm wide at half height (Gaussian), within 2 mm of the"
                + " fovea. Place, tilt, torsion, motion, brightness and speckle are drawn anew for"
                + " every scan. The noise is that of "
                + repeats
                + " pairs of scans of other phantom eyes.");
    figures(page, result);
    noise(page, result.noise());
  }

  private static void figures(Markdown page, PhantomChange.Result result) {
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

  private static void noise(Markdown page, Map<Layer, RepeatNoise> noise) {
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
