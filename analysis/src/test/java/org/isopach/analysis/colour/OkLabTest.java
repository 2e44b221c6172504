package org.isopach.analysis.colour;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OkLabTest {
  /** OKLab of the sRGB primaries and of white: W3C CSS Color Module Level 4 (from memory). */
  @ParameterizedTest
  @CsvSource({
    "0xff0000, 0.628, 0.2249, 0.1258",
    "0x00ff00, 0.8664, -0.2339, 0.1795",
    "0x0000ff, 0.452, -0.0324, -0.3115",
    "0xffffff, 1, 0, 0",
    "0x000000, 0, 0, 0",
  })
  void agreesWithThePublishedPrimaries(String rgb, double lightness, double a, double b) {
    OkLab lab = OkLab.ofRgb(Integer.decode(rgb));
    assertEquals(lightness, lab.lightness(), 1e-4);
    assertEquals(a, lab.a(), 1e-4);
    assertEquals(b, lab.b(), 1e-4);
  }

  @Test
  void goesThereAndBack() {
    for (int rgb = 0; rgb < 0x1000000; rgb += 0x01357 * 3) {
      assertEquals(rgb, OkLab.ofRgb(rgb).toRgb());
    }
  }

  @Test
  void theWayBetweenTwoColoursIsStraight() {
    OkLab from = new OkLab(0.2, 0.1, -0.1);
    OkLab to = new OkLab(0.6, -0.1, 0.1);
    assertEquals(0.25 * from.distance(to), from.distance(from.towards(to, 0.25)), 1e-12);
    assertEquals(Math.sqrt(0.24), from.distance(to), 1e-12);
  }
}
