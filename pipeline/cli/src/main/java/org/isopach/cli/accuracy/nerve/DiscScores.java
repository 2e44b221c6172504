package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.cli.page.Markdown;

/** The errors of the discs of several eyes. */
final class DiscScores {
  static final double CENTRE_UM = 50;
  static final double CONTOUR_UM = 40;
  static final double RIM_UM = 10;

  private static final List<String> HEADER =
      List.of(
          "condition",
          "eyes",
          "refused",
          "centre, mean µm",
          "centre, worst",
          "contour, mean µm",
          "contour, bias",
          "contour, worst eye",
          "area, mean absolute mm²",
          "rim sectors, mean absolute µm",
          "rim sectors within 10 µm",
          "rim, worst sector");

  private final List<DiscScore> scores;

  DiscScores(List<DiscScore> scores) {
    this.scores = List.copyOf(scores);
  }

  /** Adds the figures that have a bar. */
  BarTable addTo(BarTable table) {
    table
        .told("opening not seen (refused)", refused() + " of " + scores.size())
        .told("share of the contour that was seen", Markdown.percent(seen(), 1))
        .sizes("disc centre", errors(DiscScore::centreUm), 1, "µm", CENTRE_UM)
        .sizes("opening contour", errors(DiscScore::contourUm), 1, "µm", CONTOUR_UM)
        .told("opening contour, outside less inside", signed(DiscScore::outsideUm, 1, "µm"))
        .told("area", told(errors(DiscScore::areaMm2), 3, "mm²"))
        .told("tilt", told(errors(DiscScore::tiltDegrees), 2, "degrees"))
        .errors("rim width, all round", rim(6), 1, "µm", RIM_UM);
    for (int i = 0; i < 6; i++) {
      String name = ArcSchemes.SIX_SECTORS_SYMMETRIC.arcs().get(i).name();
      table.errors("rim width, " + name, rim(i), 1, "µm", RIM_UM);
    }
    return profiles().addTo(table);
  }

  /** Returns each eye's error of the centre, µm. */
  List<Double> centresUm() {
    return scores.stream().map(DiscScore::centreUm).toList();
  }

  /** Returns each eye's error of the contour, µm. */
  List<Double> contoursUm() {
    return scores.stream().map(DiscScore::contourUm).toList();
  }

  /** Returns the greatest error of each eye's six sectors of the rim, µm. */
  List<Double> worstRimsUm() {
    return scores.stream().map(score -> new Errors(score.rimUm().subList(0, 6)).worst()).toList();
  }

  /** Returns the circles laid round the found centres. */
  ProfileScores profiles() {
    return new ProfileScores(scores.stream().map(DiscScore::profile).toList());
  }

  /** Returns one row for {@link #header}. */
  List<String> row(String what) {
    Errors centre = errors(DiscScore::centreUm);
    Errors contour = errors(DiscScore::contourUm);
    Errors sectors =
        new Errors(scores.stream().flatMap(s -> s.rimUm().subList(0, 6).stream()).toList());
    return List.of(
        what,
        Integer.toString(scores.size()),
        Long.toString(refused()),
        Markdown.number(centre.meanAbsolute(), 1),
        Markdown.number(centre.worst(), 1),
        Markdown.number(contour.meanAbsolute(), 1),
        Markdown.number(errors(DiscScore::outsideUm).bias(), 1),
        Markdown.number(contour.worst(), 1),
        Markdown.number(errors(DiscScore::areaMm2).meanAbsolute(), 3),
        Markdown.number(sectors.meanAbsolute(), 1),
        sectors.withinWords(RIM_UM),
        Markdown.number(sectors.worst(), 1));
  }

  static List<String> header() {
    return HEADER;
  }

  private long refused() {
    return scores.stream().filter(DiscScore::refused).count();
  }

  private double seen() {
    return scores.stream()
        .filter(score -> !score.refused())
        .mapToDouble(DiscScore::seen)
        .average()
        .orElse(Double.NaN);
  }

  private Errors rim(int sector) {
    List<Double> all = new ArrayList<>();
    scores.forEach(score -> all.add(score.rimUm().get(sector)));
    return new Errors(all);
  }

  private Errors errors(ToDoubleFunction<DiscScore> figure) {
    return new Errors(scores.stream().mapToDouble(figure).boxed().toList());
  }

  private String signed(ToDoubleFunction<DiscScore> figure, int decimals, String unit) {
    return Markdown.number(errors(figure).bias(), decimals) + " " + unit;
  }

  private static String told(Errors errors, int decimals, String unit) {
    return "mean absolute "
        + Markdown.number(errors.meanAbsolute(), decimals)
        + " "
        + unit
        + " (bias "
        + Markdown.number(errors.bias(), decimals)
        + ", worst "
        + Markdown.number(errors.worst(), decimals)
        + ")";
  }
}
