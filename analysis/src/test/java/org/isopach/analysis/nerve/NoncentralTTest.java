package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NoncentralTTest {
  /** SciPy 1.10.1: q = t.ppf(.975, nu); 1 - nct.cdf(q, nu, d) + nct.cdf(-q, nu, d). */
  @ParameterizedTest
  @CsvSource({
    "2.828427,126,0.8014595234",
    "1,1,0.0729888945",
    "3,1,0.1861320616",
    "2.5,4,0.4772611174",
    "4,9,0.9437178325",
    "0,7,0.05",
    "3.2,9,0.8121599359",
    "6,2,0.8357381198"
  })
  void agreesWithSciPy(double shift, int degreesOfFreedom, double power) {
    assertEquals(power, new NoncentralT(degreesOfFreedom).power(shift), 1e-7);
  }

  /** A difference of half a standard deviation needs 64 in each group (Cohen 1988; from memory). */
  @Test
  void agreesWithCohensTable() {
    assertEquals(0.80, new NoncentralT(126).power(0.5 * Math.sqrt(64 / 2.0)), 0.005);
    assertEquals(0.80, new NoncentralT(9).power(new NoncentralT(9).shiftFor(0.80)), 1e-6);
  }

  /** With very many degrees of freedom it is 1.95996 + 0.84162 (normal quantiles). */
  @Test
  void goesOverIntoTheNormalDistribution() {
    assertEquals(2.80158, new NoncentralT(100_000).shiftFor(0.80), 1e-3);
  }
}
