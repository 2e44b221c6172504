package org.isopach.cli.accuracy;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.ToDoubleFunction;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.cli.page.Markdown;

/** The figures that have a limit, each beside its limit. */
final class Bars {
  static final double SECTOR_UM = 2.5;
  static final double CENTRE_UM = 3;
  static final double FOVEA_UM = 60;
  static final double RESCAN_UM = 1;
  static final double SWELLING_UM = 3;
  private static final double TAIL_UM = 8;
  private static final double TAIL = 0.95;

  private record Bar(
      String figure,
      String value,
      Optional<Bootstrap.Interval> interval,
      String limit,
      String met) {
    private static String verdict(boolean met) {
      return met ? "yes" : "**no**";
    }
  }

  private final List<EyeStudy> eyes;
  private final List<EyeStudy> changed;
  private final List<Bar> bars = new ArrayList<>();

  private Bars(List<EyeStudy> eyes) {
    this.eyes = eyes;
    this.changed = eyes.stream().filter(eye -> !eye.rescan().isEmpty()).toList();
  }

  static void addTo(Markdown page, List<EyeStudy> eyes, List<MirrorTrial.Difference> mirrors) {
    Bars bars = new Bars(eyes);
    bars.addDepths();
    bars.addSectors();
    bars.addFovea();
    bars.addChanges();
    bars.addMirrors(mirrors);
    page.table(
        List.of("figure", "found", "95 % interval", "bar", "met"),
        bars.bars.stream().map(Bars::row).toList());
  }

  private static List<String> row(Bar bar) {
    return List.of(
        bar.figure(),
        bar.value(),
        bar.interval()
            .map(i -> Markdown.number(i.low(), 2) + " to " + Markdown.number(i.high(), 2))
            .orElse("–"),
        bar.limit(),
        bar.met());
  }

  private void add(String figure, double um, Optional<Bootstrap.Interval> interval, double limit) {
    bars.add(
        new Bar(
            figure,
            Markdown.number(um, 2) + " µm",
            interval,
            "≤ " + Markdown.number(limit, 1) + " µm",
            Bar.verdict(um <= limit)));
  }

  private <T> void add(
      String figure, List<T> sample, ToDoubleFunction<List<T>> statistic, double limit) {
    add(
        figure,
        statistic.applyAsDouble(sample),
        Optional.of(Bootstrap.interval(sample, statistic)),
        limit);
  }

  private void addDepths() {
    add("ILM: mean absolute error", eyes, all -> depth(all, Boundary.ILM).meanAbsolute(), 2);
    add("BM: mean absolute error", eyes, all -> depth(all, Boundary.BM).meanAbsolute(), 3);
    for (Boundary boundary : List.of(Boundary.ILM, Boundary.BM)) {
      add(
          boundary.code() + ": 95th percentile of the absolute error",
          eyes,
          all -> depth(all, boundary).percentile(TAIL),
          TAIL_UM);
    }
  }

  private static ErrorTally depth(List<EyeStudy> eyes, Boundary boundary) {
    return ErrorTally.sum(eyes.stream().map(eye -> eye.score().depths().get(boundary)).toList());
  }

  private void addSectors() {
    for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
      PlaceErrors all = places().layer(layer);
      within(layer.name() + ": worst sector mean", all.sectors(), SECTOR_UM);
      within(layer.name() + ": worst centre mean", all.place("centre"), CENTRE_UM);
    }
  }

  /** Every single number must keep the limit; a refused one is counted, not judged. */
  private void within(String figure, PlaceErrors errors, double limit) {
    String words =
        figure
            + " ("
            + errors.within(limit)
            + " of "
            + errors.measured()
            + " within, "
            + errors.refused()
            + " refused)";
    add(words, errors.worst(), Optional.empty(), limit);
  }

  private PlaceErrors places() {
    return PlaceErrors.ofScores(eyes.stream().map(EyeStudy::score).toList());
  }

  private void addFovea() {
    List<OptionalDouble> all = eyes.stream().map(eye -> eye.score().foveaUm()).toList();
    double worst = all.stream().flatMapToDouble(OptionalDouble::stream).max().orElse(Double.NaN);
    long missing = all.stream().filter(OptionalDouble::isEmpty).count();
    add("fovea: worst distance (" + missing + " not found)", worst, Optional.empty(), FOVEA_UM);
  }

  private void addChanges() {
    for (Layer layer : LayerCatalogue.WHOLE_RETINA) {
      add(
          layer.name() + ", rescan: mean change of the grid over eyes, absolute",
          changed,
          all -> Math.abs(rescans(all).layer(layer).place(SectorGrid.TOTAL).bias()),
          RESCAN_UM);
      PlaceErrors rescans = rescans(changed).layer(layer);
      within(
          layer.name() + ", rescan: worst mean change of the grid of one eye",
          rescans.place(SectorGrid.TOTAL),
          RESCAN_UM);
      within(
          layer.name() + ", swelling: worst error of a sector's change",
          PlaceErrors.of(changed.stream().map(EyeStudy::swelling).toList()).layer(layer).sectors(),
          SWELLING_UM);
    }
  }

  private static PlaceErrors rescans(List<EyeStudy> eyes) {
    return PlaceErrors.of(eyes.stream().map(EyeStudy::rescan).toList());
  }

  private void addMirrors(List<MirrorTrial.Difference> mirrors) {
    double analysis =
        mirrors.stream().mapToDouble(MirrorTrial.Difference::analysisUm).max().orElse(Double.NaN);
    double chain =
        mirrors.stream().mapToDouble(MirrorTrial.Difference::chainUm).max().orElse(Double.NaN);
    bars.add(mirror("mirrored boundaries: largest difference of a table", analysis, "0 µm"));
    bars.add(mirror("mirrored pictures: largest difference of a table", chain, "–"));
  }

  private static Bar mirror(String figure, double um, String limit) {
    String value = um == 0 ? "0 µm" : String.format(java.util.Locale.ROOT, "%.2g µm", um);
    String met = limit.equals("–") ? "–" : Bar.verdict(um == 0);
    return new Bar(figure, value, Optional.empty(), limit, met);
  }
}
