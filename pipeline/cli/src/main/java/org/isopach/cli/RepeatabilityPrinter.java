package org.isopach.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.job.RepeatabilityResult;
import org.isopach.report.Cautions;

/** Prints the repeatability as plain text: the centre and the total of every layer. */
final class RepeatabilityPrinter {
  private static final String HEADING =
      "  layer          sector  eyes sess scans     mean   within SD (95 % CI)"
          + "      repeatability   bias and limits of 2nd - 1st       ICC (95 % CI)";

  private final PrintWriter out;

  RepeatabilityPrinter(PrintWriter out) {
    this.out = out;
  }

  void print(RepeatabilityResult result) {
    RepeatabilityStudy study = result.study();
    out.println();
    out.println(
        "Repeats "
            + (study.withinDays() == 0 ? "of one day" : "within " + study.withinDays() + " days")
            + ": mean thickness in um, "
            + study.grid().name()
            + "; all sectors are in repeatability.csv");
    out.println(HEADING);
    List<String> ends = List.of(study.grid().sectors().get(0).name(), SectorGrid.TOTAL);
    study.sectors().stream()
        .filter(one -> ends.contains(one.sector()))
        .forEach(one -> out.println(line(one)));
    new ResultPrinter(out).files(result.job());
    out.println();
    out.println(Cautions.LINE);
  }

  private static String line(SectorRepeatability one) {
    return String.format(
            Locale.ROOT,
            "  %-14s %-7s %4d %4d %5d %8s %21s %18s %28s %19s",
            LayerCatalogue.shortName(one.layer()),
            one.sector(),
            one.eyes(),
            one.sessions().size(),
            one.scans(),
            or(one.within().value().map(w -> number("%.1f", w.mean()))),
            or(one.within().value().map(w -> number("%.2f", w.sd()) + in("%.2f", w.sdInterval()))),
            or(one.within().value().map(w -> number("%.2f", w.coefficientOfRepeatability()))),
            or(
                one.agreement()
                    .value()
                    .map(
                        a ->
                            number("%+.2f", a.bias())
                                + " ("
                                + number("%+.2f", a.lowerLimit())
                                + " to "
                                + number("%+.2f", a.upperLimit())
                                + ")")),
            or(
                one.correlation()
                    .value()
                    .map(c -> number("%.3f", c.value()) + in("%.3f", c.interval()))))
        .stripTrailing();
  }

  private static String in(String format, ConfidenceInterval interval) {
    return " (" + number(format, interval.lower()) + "-" + number(format, interval.upper()) + ")";
  }

  private static String number(String format, double value) {
    return String.format(Locale.ROOT, format, value);
  }

  private static String or(Optional<String> text) {
    return text.orElse("n/m");
  }
}
