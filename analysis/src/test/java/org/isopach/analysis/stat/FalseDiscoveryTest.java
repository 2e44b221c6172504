package org.isopach.analysis.stat;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** The fifteen p-values of Benjamini & Hochberg, J R Stat Soc B 1995;57:289, section 4.1. */
class FalseDiscoveryTest {
  private static final double[] THROMBOLYSIS = {
    0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240, 0.4262, 0.5719,
    0.6528, 0.7590, 1.000
  };

  @Test
  void rejectsTheFourThatThePaperDoes() {
    double[] adjusted = FalseDiscovery.benjaminiHochberg(THROMBOLYSIS);

    assertEquals(4, Arrays.stream(adjusted).filter(p -> p <= 0.05).count());
    assertEquals(3, Arrays.stream(THROMBOLYSIS).filter(p -> p <= 0.05 / 15).count(), "Bonferroni");
  }

  @Test
  void agreesWithTheReference() {
    Reference.check("fdr_bh", FalseDiscovery.benjaminiHochberg(THROMBOLYSIS));
    Reference.check("fdr_by", FalseDiscovery.benjaminiYekutieli(THROMBOLYSIS));
  }

  @Test
  void keepsTheOrderAndEqualValuesEqual() {
    double[] shuffled = {0.04, 0.001, 0.04, 1, 0};

    assertArrayEquals(
        new double[] {0.05, 0.0025, 0.05, 1, 0}, FalseDiscovery.benjaminiHochberg(shuffled), 1e-15);
    assertEquals(0, FalseDiscovery.benjaminiHochberg(new double[0]).length);
  }

  @Test
  void refusesWhatIsNoProbability() {
    for (double wrong : new double[] {Double.NaN, -0.1, 1.1}) {
      assertThrows(
          IllegalArgumentException.class,
          () -> FalseDiscovery.benjaminiHochberg(new double[] {0.5, wrong}));
    }
  }
}
