package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.nerve.NerveEvent.Judged;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EventJudgeTest {
  private static final double INFINITE = Double.POSITIVE_INFINITY;

  /** Coefficient of repeatability 1.96 √2 Sw (IOVS 2189458): 9.04 µm for Sw 3.261 (53 eyes). */
  @ParameterizedTest
  @CsvSource({"-9.1,THINNER", "-9.0,WITHIN", "0,WITHIN", "9.0,WITHIN", "9.1,THICKER"})
  void holdsTheMeanAgainstTheCoefficientOfRepeatability(double change, EventVerdict verdict) {
    Judged judged = (Judged) judge(pair("global", change, 3.261, INFINITE)).get(0);

    assertEquals(verdict, judged.verdict());
    assertEquals(9.04, judged.limitUm(), 0.005);
    assertEquals(change - 9.04, judged.interval().lower(), 0.005);
    assertEquals(!judged.interval().contains(0), judged.verdict() != EventVerdict.WITHIN);
  }

  /** Student's 97.5 % quantile for 5 degrees of freedom is 2.571 (any table). */
  @Test
  void isLessSureOfNoiseKnownFromFewRepeats() {
    Judged judged = (Judged) judge(pair("global", -5, 2, 5)).get(0);

    assertEquals(2.571 * Math.sqrt(2) * 2, judged.limitUm(), 0.002);
  }

  @Test
  void judgesTheArcsOfASchemeAsOneFamily() {
    // z = −2.1 alone is beyond noise, among four places with one such it is not.
    List<NerveEvent> four =
        judge(
            pair("superior", -2.1 * Math.sqrt(2), 1, INFINITE),
            pair("nasal", 0, 1, INFINITE),
            pair("inferior", -5 * Math.sqrt(2), 1, INFINITE),
            pair("temporal", 0.1, 1, INFINITE));
    Judged superior = (Judged) four.get(0);

    // Second smallest of four: 2 Φ(−2.1) · 4 / 2 = 0.0715.
    assertEquals(0.0715, superior.pAdjusted(), 2e-4);
    assertEquals(EventVerdict.WITHIN, superior.verdict());
    assertEquals(EventVerdict.THINNER, four.get(2).verdict());
    assertEquals(
        EventVerdict.THINNER, judge(pair("superior", -2.97, 1, INFINITE)).get(0).verdict());
  }

  @Test
  void callsOneInTwentyUnchangedMeansChanged() {
    Random random = new Random(3);
    int called = 0;
    int anyOfTwelve = 0;
    for (int k = 0; k < 4000; k++) {
      List<PlacePair> hours = new ArrayList<>();
      for (int hour = 1; hour <= 12; hour++) {
        double change = 4 * Math.sqrt(2) * random.nextGaussian();
        hours.add(pair("hour-" + hour, change, 4, INFINITE));
      }
      called += judge(hours.get(0)).get(0).verdict() != EventVerdict.WITHIN ? 1 : 0;
      boolean any =
          EventJudge.judge(hours).stream().anyMatch(one -> one.verdict() != EventVerdict.WITHIN);
      anyOfTwelve += any ? 1 : 0;
    }
    assertEquals(0.05, called / 4000.0, 0.01);
    assertEquals(0.05, anyOfTwelve / 4000.0, 0.01);
  }

  @Test
  void saysThatItDoesNotKnow() {
    List<NerveEvent> events =
        EventJudge.judge(
            List.of(
                pair("superior", Double.NaN, 3, INFINITE),
                new PlacePair("nasal", 90, 80, Optional.empty()),
                pair("inferior", -3, 0, INFINITE),
                pair("temporal", -30, 3, INFINITE)));

    assertEquals(EventVerdict.UNKNOWN, events.get(0).verdict());
    assertEquals(
        "whether it changed is not known: no test–retest noise is known here",
        events.get(1).words());
    assertEquals(EventVerdict.UNKNOWN, events.get(2).verdict());
    assertEquals(EventVerdict.THINNER, events.get(3).verdict());
    assertEquals("inferior", events.get(2).place());
  }

  /** 1.96 √2 · 3 = 8.3 µm: -9 is beyond it alone, and not among twelve places. */
  @Test
  void doesNotCallWithinWhatIsBeyondItsOwnLimit() {
    List<PlacePair> hours = new ArrayList<>();
    for (int hour = 1; hour <= 12; hour++) {
      hours.add(pair("hour-" + hour, hour == 6 ? -9 : 0.1, 3, INFINITE));
    }
    List<NerveEvent> events = EventJudge.judge(hours);

    assertEquals(EventVerdict.WITHIN, events.get(5).verdict());
    assertTrue(
        events.get(5).words().startsWith("beyond test–retest taken by itself"),
        events.get(5).words());
    assertTrue(events.get(0).words().startsWith("within"), events.get(0).words());
  }

  @Test
  void speaksOfStructureOnly() {
    String words = judge(pair("global", -12, 3.261, 53)).get(0).words();

    assertTrue(words.startsWith("thinner than at baseline beyond test–retest (-12.0 µm"), words);
    assertTrue(words.endsWith("published test–retest)"), words);
    assertFalse(words.matches("(?i).*(glaucoma|disease|progress).*"), words);
  }

  private static List<NerveEvent> judge(PlacePair... pairs) {
    return EventJudge.judge(List.of(pairs));
  }

  private static PlacePair pair(String place, double change, double sd, double df) {
    SectorNoise noise = new SectorNoise(sd, df, 0, 0, NoiseSource.PUBLISHED, "53 eyes");
    return new PlacePair(place, 90, 90 + change, Optional.of(noise));
  }
}
