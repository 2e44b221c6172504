package org.isopach.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.analysis.series.EyeCourse;
import org.isopach.analysis.series.SeriesRules;
import org.isopach.analysis.series.SeriesTrend;
import org.isopach.analysis.series.TherapyResponse;
import org.isopach.analysis.series.TimeToDry;
import org.isopach.analysis.series.VisitPoint;
import org.isopach.analysis.series.VisitSeries;
import org.isopach.analysis.stat.LinearTrend;
import org.isopach.job.SeriesResult;
import org.isopach.report.Cautions;
import org.isopach.report.table.NerveSeriesFile;
import org.isopach.report.table.NerveTrendFile;
import org.isopach.report.table.SeriesJson;

/** Prints the course of every eye in the layers that are drawn, centre and total. */
final class SeriesPrinter {
  private static final List<String> SECTORS = List.of("centre", SectorGrid.TOTAL);

  private final PrintWriter out;

  SeriesPrinter(PrintWriter out) {
    this.out = out;
  }

  static void json(PrintWriter out, SeriesResult result) throws IOException {
    ObjectNode root = ResultJson.JSON.createObjectNode();
    root.put("out", result.job().folder().root().toString());
    root.set(
        "series", SeriesJson.tree(result.courses(), result.rules(), result.job().run().software()));
    root.set(
        "nerve_series",
        ResultJson.rows(NerveSeriesFile.columns(), NerveSeriesFile.rows(result.nerve())));
    root.set(
        "nerve_trend",
        ResultJson.rows(NerveTrendFile.columns(), NerveTrendFile.rows(result.nerve())));
    root.set("run", ResultJson.JSON.valueToTree(result.job().run()));
    ResultJson.print(out, root);
  }

  void print(SeriesResult result, Set<Layer> layers) {
    for (EyeCourse course : result.courses()) {
      out.println();
      out.println(
          "Patient "
              + PlainText.of(course.eye().patientId())
              + ", "
              + course.eye().laterality().word()
              + " eye: "
              + course.fluid().size()
              + " visits");
      if (course.series().isEmpty()) {
        out.println("  no visit could be mapped");
      }
      for (VisitSeries series : course.series()) {
        if (layers.contains(series.layer()) && SECTORS.contains(series.sector())) {
          print(course, series, result.rules());
        }
      }
      course
          .timeToDry(result.rules())
          .ifPresent(dry -> out.println("  " + words(dry, result.rules())));
    }
    new NervePrinter(out).courses(result.nerve());
    new ResultPrinter(out).files(result.job());
    out.println();
    out.println(Cautions.LINE);
  }

  private void print(EyeCourse course, VisitSeries series, SeriesRules rules) {
    out.println("  " + LayerCatalogue.shortName(series.layer()) + " " + series.sector() + ", um");
    out.println("    date         days    value   change");
    for (VisitPoint point : series.points()) {
      out.println(line(point));
    }
    out.println("    " + words(SeriesTrend.of(series)));
    rules.ageing(series).ifPresent(age -> out.println("    " + words(age, SeriesTrend.of(series))));
    course.response(series, rules).ifPresent(one -> out.println("    " + words(one)));
  }

  private static String line(VisitPoint point) {
    return point
        .given()
        .map(
            one ->
                String.format(
                    Locale.ROOT,
                    "    %s %6d %8.1f %+8.1f",
                    point.date(),
                    point.days(),
                    one.valueUm(),
                    Math.abs(one.changeUm()) < 0.05 ? 0.0 : one.changeUm()))
        .orElseGet(
            () -> String.format(Locale.ROOT, "    %s %6d      n/m", point.date(), point.days()));
  }

  private static String words(SeriesTrend trend) {
    if (trend.refusal().isPresent()) {
      return "no slope: " + trend.refusal().get();
    }
    LinearTrend line = trend.line().orElseThrow();
    return String.format(
        Locale.ROOT,
        "slope %+.1f um per year (95 %% interval %+.1f to %+.1f), robust %+.1f; %d visits, %d days",
        line.slope(),
        line.slopeInterval().lower(),
        line.slopeInterval().upper(),
        trend.robust().orElseThrow().slope(),
        trend.visits(),
        trend.spanDays());
  }

  private static String words(AgeSlope age, SeriesTrend trend) {
    if (age.umPerYear().isEmpty()) {
      return "ageing not subtracted: " + age.refusal();
    }
    double expected = age.umPerYear().getAsDouble();
    return trend
        .line()
        .map(
            line ->
                String.format(
                    Locale.ROOT,
                    "less expected ageing of %+.3f um per year: %+.1f (%s)",
                    expected,
                    line.slope() - expected,
                    age.source()))
        .orElse("ageing not subtracted: there is no slope");
  }

  private static String words(TherapyResponse response) {
    if (response.reference().isEmpty()) {
      return "after treatment: " + TherapyResponse.NO_REFERENCE;
    }
    String from = "after treatment, from " + response.reference().get().date() + ": ";
    Optional<TherapyResponse.Step> loading = response.loadingPhase();
    Optional<TherapyResponse.Step> last = response.last();
    return from
        + loading
            .map(step -> words(step) + " at the end of the loading phase")
            .orElse("no visit with a number in the loading phase")
        + last.map(step -> "; " + words(step) + " at the last visit").orElse("");
  }

  private static String words(TherapyResponse.Step step) {
    return String.format(
        Locale.ROOT, "%+.1f um on day %d", step.changeUm().getAsDouble(), step.daysFromTreatment());
  }

  private static String words(TimeToDry dry, SeriesRules rules) {
    String floor = String.format(Locale.ROOT, " (dry is at most %.1f nL)", rules.dryFloorNl());
    String gaps =
        dry.unmeasured().isEmpty()
            ? ""
            : "; fluid not measurable on "
                + String.join(
                    ", ", dry.unmeasured().stream().map(one -> one.date().toString()).toList());
    String answer =
        switch (dry.state()) {
          case DRY -> "first found dry on day " + dry.days().getAsLong();
          case DRY_BEFORE -> "dry before the first treatment already";
          case NOT_DRY -> "not dry by the last measured visit, day " + dry.days().getAsLong();
          case NOT_MEASURABLE -> "time to dry not known: no visit after the treatment has a volume";
          case NO_LATER_VISIT -> "time to dry not known: no visit after the first treatment";
        };
    return "fluid: " + answer + floor + gaps;
  }
}
