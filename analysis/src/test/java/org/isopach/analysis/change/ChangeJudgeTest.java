package org.isopach.analysis.change;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.junit.jupiter.api.Test;

class ChangeJudgeTest {
  /** The 0.975 quantile of Student's distribution for 10 degrees of freedom, printed tables. */
  private static final double T_10 = 2.228139;

  private final ChangeJudge judge = new ChangeJudge(Pairs.TABULATOR);

  @Test
  void theIntervalIsThatOfStudentWithTheFreedomOfTheRepeats() {
    RepeatPair pair = Pairs.of(Laterality.RIGHT, (x, y) -> 300, (x, y) -> 312, 0.05);

    ChangeTable table = judge.judge(pair, Pairs.noise(3, 10, 2)).table();

    ChangeUncertainty.Given given = Pairs.given(table, "inner-nasal");
    double sd = 3 * Math.sqrt(2);
    assertEquals(sd, given.sdUm(), 1e-9);
    assertEquals(10, given.degreesOfFreedom(), 1e-9);
    assertEquals(12 - T_10 * sd, given.lowUm(), 1e-4);
    assertEquals(12 + T_10 * sd, given.highUm(), 1e-4);
    // All ten p-values are equal, so that adjusting leaves them as they are.
    assertEquals(given.p(), given.pAdjusted(), 1e-12);
    assertTrue(given.p() > 0.01 && given.p() < 0.02, "t is 2.83: between 2.764 and 3.169");
    assertTrue(given.beyondNoise());
    assertEquals(
        "thicker by 12.0 µm (95 % CI 2.5 to 21.5)",
        Verdict.words(table.sector("inner-nasal").orElseThrow()));
  }

  @Test
  void aThinnerLayerIsSaidWithPositiveNumbers() {
    RepeatPair pair = Pairs.of(Laterality.LEFT, (x, y) -> 312, (x, y) -> 300, 0);

    ChangeTable table = judge.judge(pair, Pairs.noise(3, 10, 2)).table();

    assertEquals(
        "thinner by 12.0 µm (95 % CI 2.5 to 21.5)",
        Verdict.words(table.sector("total").orElseThrow()));
  }

  @Test
  void aSmallChangeIsCalledNoise() {
    RepeatPair pair = Pairs.of(Laterality.RIGHT, (x, y) -> 300, (x, y) -> 301, 0);

    ChangeTable table = judge.judge(pair, Pairs.noise(3, 10, 2)).table();

    assertFalse(Pairs.given(table, "centre").beyondNoise());
    assertEquals(
        "no change beyond measurement noise (+1.0 µm, 95 % CI -8.5 to +10.5)",
        Verdict.words(table.sector("centre").orElseThrow()));
  }

  @Test
  void anErrorOfPlaceAddsWhatTheSlopeMakesOfIt() {
    // On a plane of 20 µm/mm a shift of 0.1 mm along one axis moves every mean by 2 µm.
    RepeatPair pair =
        Pairs.of(Laterality.RIGHT, (x, y) -> 300 + 20 * x, (x, y) -> 300 + 20 * x, 0.1);

    ChangeUncertainty.Given given =
        Pairs.given(judge.judge(pair, Pairs.noise(1, 8, 2)).table(), "inner-superior");

    assertEquals(4, given.terms().place(), 1e-3);
    assertEquals(Math.sqrt(2 + 4), given.sdUm(), 1e-3);
    // Welch and Satterthwaite: 6² / (2² / 8).
    assertEquals(72, given.degreesOfFreedom(), 0.1);
  }

  @Test
  void atTheBottomOfAPitTheSquareOfTheShiftCounts() {
    // t = 40 r²: a shift s changes the mean of the centre by 40 s² along either axis: 3 (40 s²)²
    // each.
    RepeatPair pair =
        Pairs.of(
            Laterality.RIGHT,
            (x, y) -> 220 + 40 * (x * x + y * y),
            (x, y) -> 220 + 40 * (x * x + y * y),
            0.1);

    ChangeUncertainty.Given given =
        Pairs.given(judge.judge(pair, Pairs.noise(1, 8, 2)).table(), "centre");

    assertEquals(2 * 3 * 0.4 * 0.4, given.terms().place(), 1e-3);
  }

  @Test
  void linesLessSureThanInTheRepeatsWidenTheInterval() {
    Map<String, Double> doubt = Map.of("centre", 120.0);
    RepeatPair pair = Pairs.of(Laterality.RIGHT, (x, y) -> 300, (x, y) -> 300, 0, Map.of(), doubt);

    ChangeTable table = judge.judge(pair, Pairs.noise(2, 8, 2)).table();

    // The repeats had 40 µm² at most: the follow-up's variance counts three times.
    assertEquals(Math.sqrt(4 + 12), Pairs.given(table, "centre").sdUm(), 1e-9);
    assertEquals(Math.sqrt(4 + 4), Pairs.given(table, "total").sdUm(), 1e-9);
  }

  @Test
  void missingCellsAddTheSpreadOfTheChange() {
    RepeatPair pair =
        Pairs.of(
            Laterality.RIGHT,
            (x, y) -> x > 1.5 && y > 0 && y < 0.3 ? Double.NaN : 300,
            (x, y) -> 300 + (x > 2 ? 30 : 0),
            0);

    ChangeTable table = judge.judge(pair, Pairs.noise(1, 8, 2)).table();
    SectorChange sector = table.sector("outer-nasal").orElseThrow();
    ChangeUncertainty.Given given = Pairs.given(table, "outer-nasal");

    double missing = 1 - sector.coveredFraction();
    assertTrue(missing > 0.05 && missing < 0.1);
    double changed = ((SectorChange.MeasuredChange) sector).changeUm() / 30;
    double spread = 30 * Math.sqrt(changed * (1 - changed));
    assertEquals(Math.pow(missing * spread, 2), given.terms().coverage(), 0.02);
  }

  @Test
  void withoutNoiseThereIsAReasonAndNoInterval() {
    RepeatPair pair = Pairs.of(Laterality.RIGHT, (x, y) -> 300, (x, y) -> 312, 0);

    ChangeJudge.Judged judged =
        judge.judge(pair, RepeatNoise.unknown(Layer.ILM_BM, "nobody measured it"));

    assertEquals(
        "changed by +12.0 µm; whether that is more than noise is not known: nobody measured it",
        Verdict.words(judged.table().sector("centre").orElseThrow()));
    assertEquals(
        "nobody measured it",
        assertInstanceOf(ChangeRegions.NotSought.class, judged.regions()).reason());
  }
}
