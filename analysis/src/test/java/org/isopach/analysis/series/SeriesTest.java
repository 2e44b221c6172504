package org.isopach.analysis.series;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanIdentity;
import org.junit.jupiter.api.Test;

class SeriesTest {
  private static final LocalDate START = LocalDate.of(2026, 1, 5);
  private static final double NONE = Double.NaN;

  /**
   * A line by hand: y = 0, 2, 5, 6 over x = 0, 1, 2, 3 has slope 2.1 and a residual sum of squares
   * of 0.7; t(0.975; 2) = 4.302653 (tables of Student's t).
   */
  @Test
  void slopesAreThoseReckonedByHand() {
    VisitSeries series =
        series(new long[] {0, 1461, 2922, 4383}, new double[] {300, 302, 305, 306});

    SeriesTrend trend = SeriesTrend.of(series);

    // 1461 days are four years of 365.25 days.
    assertEquals(2.1 / 4, trend.line().orElseThrow().slope(), 1e-12);
    double se = Math.sqrt(0.7 / 2 / 5) / 4;
    assertEquals(
        2.1 / 4 - 4.302652729911275 * se, trend.line().orElseThrow().slopeInterval().lower(), 1e-9);
    // Slopes of pairs by fours of years: 2, 2.5, 2, 3, 2, 1; their median is 2.
    assertEquals(2.0 / 4, trend.robust().orElseThrow().slope(), 1e-12);
    assertEquals(OptionalDouble.of(6), trend.differenceUm());
    assertEquals(4383, trend.spanDays());
  }

  @Test
  void twoVisitsHaveADifferenceAndOneDayHasNoSlope() {
    SeriesTrend two = SeriesTrend.of(series(new long[] {0, 28, 56}, new double[] {300, NONE, 290}));
    SeriesTrend day = SeriesTrend.of(series(new long[] {0, 0, 0}, new double[] {300, 301, 302}));
    SeriesTrend none = SeriesTrend.of(series(new long[] {0, 1}, new double[] {NONE, NONE}));

    assertEquals(OptionalDouble.of(-10), two.differenceUm());
    assertTrue(two.line().isEmpty() && two.robust().isEmpty());
    assertEquals(Optional.of("a slope needs 3 visits with a number, there are 2"), two.refusal());
    assertEquals(Optional.of("all visits are of one day"), day.refusal());
    assertEquals(0, none.visits());
    assertTrue(none.differenceUm().isEmpty());
  }

  @Test
  void orderOfPointsDoesNotMatter() {
    VisitSeries series = series(new long[] {0, 28, 56}, new double[] {300, 310, 290});
    List<VisitPoint> reversed = new ArrayList<>(series.points());
    Collections.reverse(reversed);

    assertEquals(
        series,
        new VisitSeries(series.eye(), series.layer(), series.grid(), series.sector(), reversed));
  }

  @Test
  void responseCountsFromTheLastNumberOnOrBeforeTheFirstTreatment() {
    VisitSeries series =
        series(new long[] {0, 14, 28, 56, 140, 168}, new double[] {400, 420, NONE, 315, NONE, 300});

    TherapyResponse response = TherapyResponse.of(series, START.plusDays(28), 112);

    assertEquals(14, response.reference().orElseThrow().days());
    assertEquals(3, response.steps().size());
    TherapyResponse.Step loading = response.loadingPhase().orElseThrow();
    assertEquals(-105, loading.changeUm().getAsDouble(), 1e-12);
    assertEquals(-25, loading.changePercent().getAsDouble(), 1e-12);
    assertEquals(28, loading.daysFromTreatment());
    assertTrue(response.steps().get(1).loadingPhase(), "day 112 is the last of the phase");
    assertEquals("not seen", response.steps().get(1).reason());
    assertEquals(140, response.last().orElseThrow().daysFromTreatment());
    assertEquals(-120, response.last().orElseThrow().changeUm().getAsDouble(), 1e-12);
  }

  @Test
  void withoutAVisitBeforeTheTreatmentThereIsNoResponse() {
    VisitSeries series = series(new long[] {0, 28}, new double[] {400, 380});

    TherapyResponse response = TherapyResponse.of(series, START.minusDays(1), 112);

    assertTrue(response.reference().isEmpty() && response.last().isEmpty());
    assertEquals(TherapyResponse.NO_REFERENCE, response.steps().get(0).reason());
  }

  @Test
  void saysWhenAnEyeIsFoundDry() {
    TimeToDry dry = dry(10, new double[] {90, 40, NONE, 5, 30});
    assertEquals(TimeToDry.State.DRY, dry.state());
    assertEquals(84 - 10, dry.days().getAsLong());
    assertEquals(1, dry.unmeasured().size());

    assertEquals(TimeToDry.State.NOT_DRY, dry(10, new double[] {90, 40, 5.01, NONE}).state());
    assertEquals(56 - 10, dry(10, new double[] {90, 40, 5.01, NONE}).days().getAsLong());
    assertEquals(TimeToDry.State.NOT_MEASURABLE, dry(10, new double[] {90, NONE}).state());
    assertEquals(TimeToDry.State.DRY_BEFORE, dry(28, new double[] {90, 4, 60}).state());
    assertEquals(TimeToDry.State.NO_LATER_VISIT, dry(28, new double[] {90, 40}).state());
  }

  private static TimeToDry dry(int treatmentDay, double[] volumes) {
    List<VisitFluid> visits = new ArrayList<>();
    for (int i = 0; i < volumes.length; i++) {
      LocalDate date = START.plusDays(28L * i);
      OptionalDouble volume =
          Double.isNaN(volumes[i]) ? OptionalDouble.empty() : OptionalDouble.of(volumes[i]);
      visits.add(new VisitFluid(scan(i, date), date, volume, volume.isPresent() ? "" : "dark"));
    }
    return TimeToDry.of(visits, START.plusDays(treatmentDay), TimeToDry.USUAL_FLOOR_NL);
  }

  private static VisitSeries series(long[] days, double[] values) {
    List<VisitPoint> points = new ArrayList<>();
    for (int i = 0; i < days.length; i++) {
      LocalDate date = START.plusDays(days[i]);
      VisitValue value =
          Double.isNaN(values[i])
              ? new VisitValue.Missing("not seen")
              : new VisitValue.Given(values[i], values[i] - values[0]);
      points.add(new VisitPoint(scan(i, date), date, days[i], value, 1, VisitPoint.FIRST));
    }
    return new VisitSeries(
        new Eye("TSEU-1", "", Laterality.RIGHT), Layer.ILM_BM, "etdrs-1-3-6", "centre", points);
  }

  private static ScanIdentity scan(int visit, LocalDate date) {
    return new ScanIdentity(
        "TSEU-1", "1.2." + visit, "1.3." + visit, "1.4." + visit, Optional.of(date.atTime(9, 0)));
  }
}
