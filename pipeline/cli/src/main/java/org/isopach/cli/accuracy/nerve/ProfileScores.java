package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import org.isopach.analysis.nerve.ArcScheme;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.cli.page.Markdown;

/** The errors of the profiles of several eyes. */
final class ProfileScores {
  static final double PROFILE_UM = 3;
  static final double GLOBAL_UM = 1.5;
  static final double HOUR_UM = 4;

  private static final List<String> HEADER =
      List.of(
          "scans",
          "eyes",
          "refused",
          "profile, mean absolute",
          "bias",
          "covered",
          "global, mean absolute",
          "global, worst",
          "clock hours, mean absolute",
          "clock hours within 4 µm",
          "clock hours, worst",
          "clock hours missing");

  private final List<ProfileScore> scores;

  ProfileScores(List<ProfileScore> scores) {
    this.scores = List.copyOf(scores);
  }

  /** Adds the figures that have a bar. */
  BarTable addTo(BarTable table) {
    Errors profile = errors(ProfileScore::meanAbsoluteUm);
    Errors hours = all(ProfileScore::hoursUm);
    List<Errors> each = byArc(ProfileScore::hoursUm, ArcSchemes.CLOCK_HOURS);
    double worstHour = each.stream().mapToDouble(Errors::meanAbsolute).max().orElse(Double.NaN);
    table
        .sizes("profile: mean absolute error of an eye", profile, 2, "µm", PROFILE_UM)
        .errors("global mean", errors(ProfileScore::globalUm), 2, "µm", GLOBAL_UM)
        .errors("clock hours", hours, 2, "µm", HOUR_UM)
        .atMost("clock hour with the largest mean absolute error", worstHour, 2, "µm", HOUR_UM)
        .row(
            "every clock hour of every eye (strict reading)",
            "worst " + Markdown.number(hours.worst(), 2) + " µm",
            "≤ 4 µm",
            hours.worst() <= HOUR_UM && hours.missing() == 0);
    return table;
  }

  /** Returns the greatest error of each eye's clock hours in µm; NaN of one without any. */
  List<Double> worstHours() {
    return scores.stream().map(score -> new Errors(score.hoursUm()).worst()).toList();
  }

  /** Returns how many were refused. */
  long refused() {
    return scores.stream().filter(ProfileScore::refused).count();
  }

  /** Adds each arc's errors. */
  void arcs(Markdown page) {
    List<List<String>> rows = new ArrayList<>();
    rows(rows, ArcSchemes.QUADRANTS, byArc(ProfileScore::quadrantsUm, ArcSchemes.QUADRANTS));
    rows(rows, ArcSchemes.CLOCK_HOURS, byArc(ProfileScore::hoursUm, ArcSchemes.CLOCK_HOURS));
    page.table(List.of("arc", "mean absolute", "bias", "worst", "within 4 µm", "missing"), rows);
  }

  private static void rows(List<List<String>> rows, ArcScheme scheme, List<Errors> each) {
    for (int i = 0; i < each.size(); i++) {
      Errors errors = each.get(i);
      rows.add(
          List.of(
              scheme.arcs().get(i).name(),
              Markdown.number(errors.meanAbsolute(), 2),
              Markdown.number(errors.bias(), 2),
              Markdown.number(errors.worst(), 2),
              errors.withinWords(HOUR_UM),
              Integer.toString(errors.missing())));
    }
  }

  /** Returns one row for {@link #header}. */
  List<String> row(String what) {
    Errors global = errors(ProfileScore::globalUm);
    Errors hours = all(ProfileScore::hoursUm);
    return List.of(
        what,
        Integer.toString(scores.size()),
        Long.toString(refused()),
        Markdown.number(errors(ProfileScore::meanAbsoluteUm).meanAbsolute(), 2),
        Markdown.number(errors(ProfileScore::biasUm).bias(), 2),
        Markdown.percent(coverage(), 1),
        Markdown.number(global.meanAbsolute(), 2),
        Markdown.number(global.worst(), 2),
        Markdown.number(hours.meanAbsolute(), 2),
        Markdown.percent((double) hours.within(HOUR_UM) / hours.count(), 0),
        Markdown.number(hours.worst(), 2),
        Integer.toString(hours.missing()));
  }

  static List<String> header() {
    return HEADER;
  }

  /** Returns the mean share of the circle that has a value, refused scans left out. */
  double coverage() {
    return scores.stream()
        .filter(score -> !score.refused())
        .mapToDouble(ProfileScore::coverage)
        .average()
        .orElse(Double.NaN);
  }

  Errors errors(ToDoubleFunction<ProfileScore> figure) {
    return new Errors(scores.stream().mapToDouble(figure).boxed().toList());
  }

  private Errors all(Function<ProfileScore, List<Double>> arcs) {
    return new Errors(scores.stream().flatMap(score -> arcs.apply(score).stream()).toList());
  }

  private List<Errors> byArc(Function<ProfileScore, List<Double>> arcs, ArcScheme scheme) {
    List<Errors> each = new ArrayList<>();
    for (int i = 0; i < scheme.arcs().size(); i++) {
      int at = i;
      each.add(new Errors(scores.stream().map(score -> arcs.apply(score).get(at)).toList()));
    }
    return each;
  }
}
