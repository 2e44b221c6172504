package org.isopach.analysis.cross;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanIdentity;
import org.junit.jupiter.api.Test;

class DifferencesTest {
  private static Differences of(double[] theirs, double[] ours) {
    Differences.Collector collector = new Differences.Collector();
    for (int i = 0; i < theirs.length; i++) {
      collector.add(theirs[i], ours[i]);
    }
    return collector.result();
  }

  /** By hand: differences 1, -2, 3, -4 and 7. */
  @Test
  void everyFigureByHand() {
    Differences all =
        of(
            new double[] {11, 8, 13, 6, 17, Double.NaN, 5, Double.NaN},
            new double[] {10, 10, 10, 10, 10, 10, Double.NaN, Double.NaN});
    assertEquals(5, all.pairs());
    assertEquals(1, all.onlyTheirs());
    assertEquals(1, all.onlyOurs());
    assertEquals(5 / 6.0, all.coveredFraction(), 1e-12);
    Differences.Spread spread = all.spread().orElseThrow();
    assertEquals(11, spread.meanTheirs(), 1e-12);
    assertEquals(10, spread.meanOurs(), 1e-12);
    assertEquals(1, spread.mean(), 1e-12);
    assertEquals(Math.sqrt((0 + 9 + 4 + 25 + 36) / 4.0), spread.sd(), 1e-12);
    assertEquals(17 / 5.0, spread.meanAbsolute(), 1e-12);
    assertEquals(7, spread.percentile95(), 1e-12);
    assertEquals(1 - 1.96 * spread.sd(), spread.lowerLimit(), 1e-12);
    assertEquals(1 + 1.96 * spread.sd(), spread.upperLimit(), 1e-12);
  }

  /** Of 2000 different sizes, 1900 are not above the 1900th. */
  @Test
  void ninetyFivePerCentAreNotAboveThePercentile() {
    Differences.Collector collector = new Differences.Collector();
    for (int i = 1; i <= 2000; i++) {
      collector.add(i % 2 == 0 ? i : -i, 0);
    }
    assertEquals(1900, collector.result().spread().orElseThrow().percentile95(), 1e-12);
  }

  @Test
  void withoutAPairThereIsNoFigure() {
    Differences none = of(new double[] {Double.NaN}, new double[] {3});
    assertEquals(Optional.empty(), none.spread());
    assertEquals(0, none.coveredFraction());
    assertEquals(0, of(new double[] {5}, new double[] {3}).spread().orElseThrow().sd());
  }

  /** Dice 1945: 2 h / (a + b). */
  @Test
  void diceByHand() {
    assertEquals(0.5, new VoxelOverlap(10, 6, 4).dice().getAsDouble(), 1e-12);
    assertEquals(0, new VoxelOverlap(0, 6, 0).dice().getAsDouble());
    assertEquals(OptionalDouble.empty(), new VoxelOverlap(0, 0, 0).dice());
    assertThrows(IllegalArgumentException.class, () -> new VoxelOverlap(1, 2, 2));
  }

  @Test
  void whatMayNotBeComparedNeverHasADifference() {
    CrossLine.Pair pair =
        new CrossLine.Pair("to BM", "ILM-RPE", "centre", CrossLine.Quantity.THICKNESS);
    CrossLine line = line(pair, Optional.empty(), CrossLine.Verdict.no("definitions differ"));
    assertTrue(line.difference().isEmpty());
    Differences some = of(new double[] {5}, new double[] {3});
    assertThrows(
        IllegalArgumentException.class,
        () -> line(pair, Optional.of(some), CrossLine.Verdict.no("definitions differ")));
    assertThrows(IllegalArgumentException.class, () -> new CrossLine.Verdict(true, "why", ""));
    assertEquals(
        20, line(pair, Optional.empty(), CrossLine.Verdict.yes("")).difference().getAsDouble());
  }

  private static CrossLine line(
      CrossLine.Pair pair, Optional<Differences> differences, CrossLine.Verdict verdict) {
    return new CrossLine(
        new ScanIdentity("SP", "1.1", "1.2", "1.3", Optional.empty()),
        Optional.of(Laterality.LEFT),
        new CrossLine.Source("grid-report", "2.25.1", "Kittiwake", "source-instance", ""),
        pair,
        OptionalDouble.of(300),
        OptionalDouble.of(280),
        differences,
        Optional.empty(),
        OptionalDouble.empty(),
        verdict);
  }
}
