package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class BootstrapTest {
  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).average().orElse(Double.NaN);
  }

  @Test
  void equalEyesLeaveNothingOpen() {
    Bootstrap.Interval interval = Bootstrap.interval(List.of(2.0, 2.0, 2.0), BootstrapTest::mean);
    assertEquals(2, interval.low());
    assertEquals(2, interval.high());
    assertEquals("[2.0, 2.0]", interval.text(1));
  }

  /** The mean of 400 zeros and ones, half each, has the standard error 0.5 / √400 = 0.025. */
  @Test
  void ofAMeanItIsThatOfTheNormalLaw() {
    List<Double> values = new ArrayList<>();
    for (int i = 0; i < 400; i++) {
      values.add(i % 2 == 0 ? 0.0 : 1.0);
    }
    Bootstrap.Interval interval = Bootstrap.interval(values, BootstrapTest::mean);
    assertEquals(0.5 - 1.96 * 0.025, interval.low(), 0.006);
    assertEquals(0.5 + 1.96 * 0.025, interval.high(), 0.006);
  }

  @Test
  void aFigureWithoutValueInSomeDrawsHasNoInterval() {
    List<Double> values = List.of(Double.NaN, 1.0);
    assertEquals("–", Bootstrap.interval(values, BootstrapTest::mean).text(2));
  }
}
