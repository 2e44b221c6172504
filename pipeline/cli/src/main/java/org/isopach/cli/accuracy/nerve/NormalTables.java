package org.isopach.cli.accuracy.nerve;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalJudge;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.analysis.normal.NormalRules;
import org.isopach.analysis.normal.ReferenceAgeing;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.normal.ReferenceRow;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.cli.page.Markdown;

/** What the judge makes of every row of the table: means come out at the 50th percentile. */
final class NormalTables {
  private static final double USUAL_MM = NormalRules.USUAL.usualDiameterMm();
  private static final double ADULT_YEARS = 50;

  /** Quantile of the normal distribution at 5 %. */
  private static final double FIFTH = -1.644854;

  private NormalTables() {}

  static void addTo(Markdown page, ReferenceTable table) {
    List<List<String>> means = new ArrayList<>();
    for (ReferenceRow row : table.rows()) {
      means.add(mean(new NormalJudge(only(table, row), NormalRules.USUAL), row));
    }
    page.paragraph(
            "Published means out of the shipped table: each row's mean, and its mean less 1.645 SD,"
                + " placed by the judge with that row alone.")
        .table(
            List.of(
                "group",
                "place",
                "mean, µm",
                "SD, µm",
                "N",
                "percentile of the mean",
                "of the mean less 1.645 SD",
                "source"),
            means);
    List<List<String>> slopes = new ArrayList<>();
    for (ReferenceAgeing row : table.ageing()) {
      slopes.add(slope(table, row));
    }
    page.paragraph(
            "Published age slopes out of the shipped table: what is taken as expected in a year at"
                + " an age within the row's range, when only that group is asked.")
        .table(
            List.of("group", "place", "slope in the table", "slope applied", "at age", "source"),
            slopes);
  }

  private static ReferenceTable only(ReferenceTable table, ReferenceRow row) {
    return new ReferenceTable(table.name(), List.of(row), List.of());
  }

  private static NormalEye adult(double years) {
    return NormalEye.UNKNOWN.aged(years);
  }

  /** Returns a place with what an eye's scan always has. */
  private static ReferencePlace asked(ReferencePlace place) {
    double mm = place.diameterMm().orElse(USUAL_MM);
    return new ReferencePlace(
        place.measure(),
        place.boundaries(),
        place.scheme(),
        place.sector(),
        OptionalDouble.of(mm),
        place.angleZero().or(() -> Optional.of(AngleZero.Kind.HORIZONTAL.code())));
  }

  private static List<String> mean(NormalJudge judge, ReferenceRow row) {
    double years = row.scope().ages().from().orElse(ADULT_YEARS);
    ReferencePlace place = asked(row.place());
    double low = row.meanUm() + FIFTH * row.sdUm();
    return List.of(
        row.source().referenceId(),
        row.place().sector(),
        Markdown.number(row.meanUm(), 2),
        Markdown.number(row.sdUm(), 2),
        Integer.toString(row.n()),
        percentile(judge.place(row.meanUm(), place, adult(years), OptionalDouble.empty())),
        percentile(judge.place(low, place, adult(years), OptionalDouble.empty())),
        row.source().source());
  }

  private static String percentile(NormalPlace place) {
    return place instanceof NormalPlace.Placed placed
        ? Markdown.number(placed.percentile(), 2)
        : place.words();
  }

  private static List<String> slope(ReferenceTable table, ReferenceAgeing row) {
    double years = row.scope().ages().from().orElse(ADULT_YEARS);
    AgeSlope applied =
        new NormalJudge(table.only(row.source().referenceId()), NormalRules.USUAL)
            .ageing(asked(row.place()), adult(years));
    return List.of(
        row.source().referenceId(),
        row.place().sector(),
        Markdown.number(row.umPerYear(), 3) + " µm/year",
        applied.umPerYear().isPresent()
            ? Markdown.number(applied.umPerYear().getAsDouble(), 3) + " µm/year"
            : applied.refusal(),
        Markdown.number(years, 0),
        row.source().source());
  }
}
