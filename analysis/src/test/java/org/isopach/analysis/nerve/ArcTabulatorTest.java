package org.isopach.analysis.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ArcTabulatorTest {
  static List<ArcScheme> schemes() {
    return ArcSchemes.all();
  }

  /**
   * Published means of quadrants and of the whole (IOVS article 2380014; PMC3522848; doi
   * 10.3969/j.issn.2095-5227.2016.08.011). The tolerance is what their rounding and their averaging
   * over eyes leave.
   */
  @ParameterizedTest
  @CsvSource({
    "64.35, 117.52, 69.03, 122.76, 93.42, 93.415, 0.006",
    "69.9, 124.7, 74.3, 128.8, 99.4, 99.425, 0.05",
    "89.10, 120.94, 65.55, 126.18, 100.41, 100.4425, 0.05"
  })
  void reproducesTheGlobalMeanOfPublishedQuadrants(
      double t, double s, double n, double i, double published, double exact, double tolerance) {
    CircleProfile profile = Circles.ofMeans(ArcSchemes.QUADRANTS, t, s, n, i);

    ArcTable table = ArcTabulator.tabulate(profile, ArcSchemes.QUADRANTS);

    assertEquals(t, mean(table, "temporal").meanUm(), 1e-9);
    assertEquals(s, mean(table, "superior").meanUm(), 1e-9);
    assertEquals(n, mean(table, "nasal").meanUm(), 1e-9);
    assertEquals(i, mean(table, "inferior").meanUm(), 1e-9);
    assertEquals(exact, mean(table, "global").meanUm(), 1e-9);
    assertEquals(published, mean(table, "global").meanUm(), tolerance);
  }

  /**
   * Sector means of the Beijing Eye Study (quoted in IOVS article 2712933); the widths 90, 40, 40,
   * 110, 40, 40 make 98.53 of them. Borders that cut samples cost below 0.001 µm.
   */
  @ParameterizedTest
  @CsvSource({"six-sectors-symmetric", "six-sectors-as-drawn"})
  void weighsPublishedSectorsWithTheirWidths(String name) {
    ArcScheme scheme = ArcSchemes.ofName(name).orElseThrow();

    ArcTable table =
        ArcTabulator.tabulate(Circles.ofMeans(scheme, 76, 138, 106, 73, 118, 153), scheme);

    assertEquals(76, mean(table, "temporal").meanUm(), 1e-3);
    assertEquals(138, mean(table, "superotemporal").meanUm(), 1e-3);
    assertEquals(106, mean(table, "superonasal").meanUm(), 1e-3);
    assertEquals(73, mean(table, "nasal").meanUm(), 1e-3);
    assertEquals(118, mean(table, "inferonasal").meanUm(), 1e-3);
    assertEquals(153, mean(table, "inferotemporal").meanUm(), 1e-3);
    assertEquals(98.53, mean(table, "global").meanUm(), 0.005);
  }

  /**
   * The integral of a sinusoid in closed form; the sum's error is that of steps of 0.47 degrees.
   */
  @ParameterizedTest
  @MethodSource("schemes")
  void integratesASinusoidOverEveryArc(ArcScheme scheme) {
    ArcTable table = ArcTabulator.tabulate(Circles.profile(Circles::sinusoid), scheme);

    for (Arc arc : scheme.arcs()) {
      double from = arc.fromDegrees();
      double to = from + arc.widthDegrees();
      double width = Math.toRadians(arc.widthDegrees());
      double twice =
          Math.sin(Math.toRadians(2 * (to - 95))) - Math.sin(Math.toRadians(2 * (from - 95)));
      double once = Math.cos(Math.toRadians(from + 20)) - Math.cos(Math.toRadians(to + 20));
      double expected = 95 + (30 * twice / 2 + 12 * once) / width;
      assertEquals(expected, mean(table, arc.name()).meanUm(), 0.01, arc.name());
      assertEquals(1.0, mean(table, arc.name()).coveredFraction());
    }
    ArcMean global = mean(table, "global");
    assertEquals(95, global.meanUm(), 1e-9);
    assertEquals(Math.sqrt((30 * 30 + 12 * 12) / 2.0), global.sdUm(), 1e-9);
    assertEquals(360, global.widthDegrees());
    assertEquals(1.0, global.coveredFraction());
  }

  @Test
  void givesAnyCompleteProfileOneGlobalMean() {
    Random random = new Random(11);
    for (int run = 0; run < 50; run++) {
      double[] values = random.doubles(CircleProfile.SAMPLES, 20, 200).toArray();
      double plain = 0;
      for (double value : values) {
        plain += value / values.length;
      }
      for (ArcScheme scheme : ArcSchemes.all()) {
        ArcTable table = ArcTabulator.tabulate(Circles.profile(values), scheme);
        assertEquals(plain, mean(table, "global").meanUm(), 1e-9, scheme.name());
      }
    }
  }

  /** LOINC part LP248912-0: quadrants of 90 degrees, each of three clock hours of 30. */
  @Test
  void putsThreeClockHoursIntoEachQuadrant() {
    assertEquals(12, ArcSchemes.CLOCK_HOURS.arcs().size());
    for (Arc quadrant : ArcSchemes.QUADRANTS.arcs()) {
      assertEquals(90, quadrant.widthDegrees());
      long within =
          ArcSchemes.CLOCK_HOURS.arcs().stream()
              .filter(hour -> hour.widthDegrees() == 30)
              .filter(hour -> quadrant.contains(hour.fromDegrees()))
              .filter(hour -> quadrant.contains(hour.fromDegrees() + 29.999))
              .count();
      assertEquals(3, within, quadrant.name());
    }
  }

  /** On the face of a clock, a right eye's temporal side is at 9, superior at 12. */
  @ParameterizedTest
  @CsvSource({
    "0, hour-9",
    "90, hour-12",
    "180, hour-3",
    "270, hour-6",
    "30, hour-10",
    "59, hour-11"
  })
  void namesClockHours(double degrees, String expected) {
    List<String> found =
        ArcSchemes.CLOCK_HOURS.arcs().stream()
            .filter(arc -> arc.contains(degrees))
            .map(Arc::name)
            .toList();

    assertEquals(List.of(expected), found);
  }

  @ParameterizedTest
  @MethodSource("schemes")
  void putsEveryAngleIntoOneArc(ArcScheme scheme) {
    for (double degrees = 0; degrees < 360; degrees += 0.25) {
      double angle = degrees;
      assertEquals(1, scheme.arcs().stream().filter(arc -> arc.contains(angle)).count());
    }
  }

  @Test
  void refusesAnArcWithLessThanNineTenthsOfItsAngle() {
    double[] values = new double[CircleProfile.SAMPLES];
    Arrays.fill(values, 100);
    // The nasal quadrant holds samples 289 to 479 whole and 288 and 480 by half: 192 in all.
    Arrays.fill(values, 300, 319, Double.NaN);

    ArcTable measured = ArcTabulator.tabulate(Circles.profile(values), ArcSchemes.QUADRANTS);
    values[319] = Double.NaN;
    ArcTable refused = ArcTabulator.tabulate(Circles.profile(values), ArcSchemes.QUADRANTS);

    assertEquals(173.0 / 192, mean(measured, "nasal").coveredFraction(), 1e-12);
    assertEquals(1 - 19.0 / 768, mean(measured, "global").coveredFraction(), 1e-12);
    ArcMissing nasal = missing(refused, "nasal");
    assertEquals(ArcMissing.Reason.LOW_COVERAGE, nasal.reason());
    assertEquals("89.6 % of the arc has a value, 90.0 % are needed", nasal.detail());
    assertEquals(100, mean(refused, "superior").meanUm());
    assertEquals(ArcMissing.Reason.INCOMPLETE_CIRCLE, missing(refused, "global").reason());
    assertEquals("1 of 4 arcs could not be measured", missing(refused, "global").detail());
  }

  @Test
  void saysWhenNothingIsThere() {
    double[] values = new double[CircleProfile.SAMPLES];
    Arrays.fill(values, Double.NaN);

    ArcTable table = ArcTabulator.tabulate(Circles.profile(values), ArcSchemes.CLOCK_HOURS);

    assertEquals(ArcMissing.Reason.NO_VALUE, missing(table, "hour-7").reason());
    assertEquals(0, missing(table, "global").coveredFraction());
  }

  @Test
  void letsAMissingPartBeLikeTheRestOfItsArc() {
    double[] values = new double[CircleProfile.SAMPLES];
    for (int i = 0; i < values.length; i++) {
      values[i] = i > 288 && i < 480 ? 60 : 100;
    }
    Arrays.fill(values, 300, 315, Double.NaN);

    ArcTable table = ArcTabulator.tabulate(Circles.profile(values), ArcSchemes.QUADRANTS);

    double nasal = (176 * 60 + 2 * 0.5 * 100) / 177;
    assertEquals(nasal, mean(table, "nasal").meanUm(), 1e-9);
    assertEquals((300 + nasal) / 4, mean(table, "global").meanUm(), 1e-9);
  }

  @Test
  void refusesSchemesWithGapsAndOverlaps() {
    Arc half = new Arc("a", 10, 180);
    assertThrows(IllegalArgumentException.class, () -> scheme(half, new Arc("b", 190, 179)));
    assertThrows(IllegalArgumentException.class, () -> scheme(half, new Arc("b", 189, 181)));
    assertThrows(IllegalArgumentException.class, () -> scheme(half, new Arc("a", 190, 180)));
    assertThrows(IllegalArgumentException.class, () -> scheme(half, new Arc("global", 190, 180)));
    assertThrows(IllegalArgumentException.class, () -> new Arc("a", 360, 10));
    assertThrows(IllegalArgumentException.class, () -> new Arc("a", 0, 0));
    assertEquals(2, scheme(half, new Arc("b", 190, 180)).arcs().size());
    assertTrue(ArcSchemes.ofName("quadrants").isPresent());
    assertTrue(ArcSchemes.ofName("thirds").isEmpty());
  }

  private static ArcScheme scheme(Arc... arcs) {
    return new ArcScheme("s", "ours", List.of(arcs));
  }

  private static ArcMean mean(ArcTable table, String arc) {
    return assertInstanceOf(ArcMean.class, table.arc(arc).orElseThrow());
  }

  private static ArcMissing missing(ArcTable table, String arc) {
    return assertInstanceOf(ArcMissing.class, table.arc(arc).orElseThrow());
  }
}
