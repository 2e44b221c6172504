package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Random;
import org.isopach.analysis.series.AgeSlope;
import org.junit.jupiter.api.Test;

class TrendFitterTest {
  private static final AgeSlope LOSS =
      new AgeSlope(
          "ILM-RNFL-GCL",
          "global",
          OptionalDouble.of(-0.364),
          "20 to 59 years",
          "IOVS 2127832",
          "");
  private static final AgeSlope NONE =
      new AgeSlope("ILM-RNFL-GCL", "global", OptionalDouble.empty(), "", "", "no reference");

  /** −1 µm per year over 5 years of half-yearly visits; inter-session SD 2.6 µm (IOVS 2364673). */
  @Test
  void holdsTheTrueSlopeIn95OfAHundredSeries() {
    double[] years = VisitsNeededTest.halfYears(11);
    Random random = new Random(11);
    int held = 0;
    int netHeld = 0;
    double sum = 0;
    for (int k = 0; k < 2000; k++) {
      double[] values = VisitsNeededTest.falling(years, 2.6, random);
      NerveTrend trend = TrendFitter.fit("global", years, values, LOSS, OptionalDouble.of(2.6));
      held += trend.line().orElseThrow().slopeInterval().contains(-1) ? 1 : 0;
      netHeld += trend.intervalLessAgeing().orElseThrow().contains(-1 + 0.364) ? 1 : 0;
      sum += trend.line().orElseThrow().slope();
    }
    assertEquals(0.95, held / 2000.0, 0.02);
    assertEquals(held, netHeld);
    // Standard error of the mean slope: 2.6 / √27.5 / √2000 = 0.011.
    assertEquals(-1, sum / 2000, 0.033);
  }

  @Test
  void subtractsWhatAgeExplainsAndKeepsTheRawSlopeBeside() {
    double[] years = {0, 1, 2, 3};
    NerveTrend trend =
        TrendFitter.fit(
            "global", years, new double[] {100, 99.1, 97.9, 97}, LOSS, OptionalDouble.of(0.1));

    // Least squares by hand: Σ (t − 1.5) y / 5 = −1.02.
    assertEquals(-1.02, trend.line().orElseThrow().slope(), 1e-9);
    assertEquals(-0.656, trend.slopeLessAgeing().orElseThrow(), 1e-9);
    assertTrue(trend.words().startsWith("thins (-1.02 µm per year, 95 % CI"), trend.words());
    assertTrue(trend.words().contains("; less what age explains: -0.66 µm"), trend.words());
    assertEquals(3, trend.spanYears());
  }

  @Test
  void leavesVisitsWithoutAValueOut() {
    NerveTrend trend =
        TrendFitter.fit(
            "global",
            new double[] {0, 1, 2, 3},
            new double[] {100, 99, Double.NaN, 97},
            NONE,
            OptionalDouble.empty());

    assertEquals(3, trend.visits());
    assertEquals(-1, trend.line().orElseThrow().slope(), 1e-12);
    assertTrue(trend.slopeLessAgeing().isEmpty());
    assertTrue(trend.words().contains("what age explains is not known: no reference"));
  }

  @Test
  void refusesTwoVisitsAndVisitsOfOneDay() {
    NerveTrend two = fit(new double[] {0, 1}, new double[] {100, 90});
    NerveTrend day = fit(new double[] {1, 1, 1}, new double[] {100, 90, 95});

    assertEquals("no slope: it needs 3 visits with a value, there are 2", two.words());
    assertEquals("no slope: all visits are of one time", day.words());
    assertTrue(two.line().isEmpty() && two.power().isEmpty() && day.robust().isEmpty());
    assertThrows(
        IllegalArgumentException.class, () -> fit(new double[] {0, 1}, new double[] {100}));
  }

  @Test
  void saysThatTooFewVisitsSayNothing() {
    NerveTrend trend =
        TrendFitter.fit(
            "global",
            new double[] {0, 0.5, 1},
            new double[] {95, 97, 94.5},
            LOSS,
            OptionalDouble.of(2.6));

    assertTrue(trend.words().startsWith("no slope beyond the visits' scatter"), trend.words());
    assertTrue(trend.words().contains("too few visits to say"), trend.words());
    assertTrue(trend.power().orElseThrow().tooLow());
  }

  /** Four places are asked: without a correction some slope of an unchanged eye is often found. */
  @Test
  void findsASlopeInFewUnchangedEyesHoweverManyPlacesAreAsked() {
    double[] years = VisitsNeededTest.halfYears(7);
    Random random = new Random(23);
    int alone = 0;
    int together = 0;
    for (int k = 0; k < 400; k++) {
      List<NerveTrend> family = new ArrayList<>();
      for (int place = 0; place < 4; place++) {
        double[] values = new double[years.length];
        for (int v = 0; v < values.length; v++) {
          values[v] = 100 + 3 * random.nextGaussian();
        }
        family.add(TrendFitter.fit("hour", years, values, NONE, OptionalDouble.of(3)));
      }
      alone += family.stream().anyMatch(TrendFitterTest::found) ? 1 : 0;
      together += TrendFitter.judge(family).stream().anyMatch(TrendFitterTest::found) ? 1 : 0;
    }
    // Independent places: 1 - 0.95^4 = 0.185 by themselves, 0.05 after Benjamini and Hochberg;
    // three standard errors of 400 eyes.
    assertEquals(0.185, alone / 400.0, 0.058);
    assertEquals(0.05, together / 400.0, 0.033);
  }

  private static boolean found(NerveTrend trend) {
    return trend.verdict() == EventVerdict.THINNER || trend.verdict() == EventVerdict.THICKER;
  }

  /** Of three places with a slope the steepest has three times its p, by the procedure. */
  @Test
  void saysThatASlopeIsBeyondScatterOnlyTakenByItself() {
    double[] years = {0, 1, 2, 3};
    NerveTrend steep = fit(years, new double[] {100, 98.4, 98.0, 96.0});
    NerveTrend flat = fit(years, new double[] {100, 101, 99, 100.4});
    NerveTrend none = fit(new double[] {0, 1}, new double[] {100, 90});
    double p = steep.line().orElseThrow().slopeP();
    assertTrue(p > 0.05 / 3 && p < 0.05, "p " + p);
    assertEquals(EventVerdict.THINNER, steep.verdict());

    List<NerveTrend> judged = TrendFitter.judge(List.of(flat, steep, none, flat));

    assertEquals(3 * p, judged.get(1).pAdjusted().orElseThrow(), 1e-12);
    assertEquals(EventVerdict.WITHIN, judged.get(1).verdict());
    assertTrue(
        judged
            .get(1)
            .words()
            .startsWith(
                "beyond the visits' scatter taken by itself, not once the number of places is"
                    + " allowed for"),
        judged.get(1).words());
    assertEquals(EventVerdict.UNKNOWN, judged.get(2).verdict());
    assertEquals(none, judged.get(2));
  }

  @Test
  void namesNoDisease() {
    String words =
        fit(new double[] {0, 1, 2, 3, 4}, new double[] {100, 97.9, 96.1, 94, 91.9}).words();

    assertTrue(words.startsWith("thins"), words);
    assertFalse(words.matches("(?i).*(glaucoma|disease|progress|normal).*"), words);
  }

  private static NerveTrend fit(double[] years, double[] values) {
    return TrendFitter.fit("global", years, values, LOSS, OptionalDouble.empty());
  }
}
