package org.isopach.analysis.colour;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ColourScaleTest {
  /**
   * Linear-light matrices of complete colour blindness: Machado, Oliveira and Fernandes, IEEE
   * Transactions on Visualization and Computer Graphics 2009;15:1291, severity 1.0 (from memory).
   */
  enum Sight {
    FULL,
    PROTANOPIA,
    DEUTERANOPIA,
    TRITANOPIA;

    private double[] matrix() {
      return switch (this) {
        case FULL -> new double[] {1, 0, 0, 0, 1, 0, 0, 0, 1};
        case PROTANOPIA ->
            new double[] {
              0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116,
              1.051998
            };
        case DEUTERANOPIA ->
            new double[] {
              0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.011820, 0.042940,
              0.968881
            };
        case TRITANOPIA ->
            new double[] {
              1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367,
              0.303900
            };
      };
    }

    OkLab see(OkLab colour) {
      double[] rgb = {colour.linearRed(), colour.linearGreen(), colour.linearBlue()};
      double[] matrix = matrix();
      double[] seen = new double[3];
      for (int i = 0; i < 3; i++) {
        double sum = 0;
        for (int j = 0; j < 3; j++) {
          sum += matrix[3 * i + j] * rgb[j];
        }
        seen[i] = Math.min(1, Math.max(0, sum));
      }
      return OkLab.ofLinear(seen[0], seen[1], seen[2]);
    }
  }

  private static final ColourScale SEQUENTIAL = ColourScale.sequential();
  private static final ColourScale DIVERGING = ColourScale.diverging();

  @Test
  void everyColourExistsInSrgb() {
    for (int i = 0; i <= 1000; i++) {
      for (ColourScale scale : new ColourScale[] {SEQUENTIAL, DIVERGING}) {
        OkLab colour = scale.at(i / 1000.0);
        double least =
            Math.min(colour.linearRed(), Math.min(colour.linearGreen(), colour.linearBlue()));
        double most =
            Math.max(colour.linearRed(), Math.max(colour.linearGreen(), colour.linearBlue()));
        assertTrue(least >= 0 && most <= 1, colour + " at " + i);
      }
    }
  }

  @Test
  void equalStepsOfThicknessAreEquallyFarApart() {
    double mean = 0;
    for (int i = 0; i < 100; i++) {
      mean += SEQUENTIAL.at(i / 100.0).distance(SEQUENTIAL.at((i + 1) / 100.0)) / 100;
    }
    for (int i = 0; i < 100; i++) {
      double step = SEQUENTIAL.at(i / 100.0).distance(SEQUENTIAL.at((i + 1) / 100.0));
      assertEquals(mean, step, 0.01 * mean);
    }
  }

  @Test
  void equalStepsOfADifferenceAreEquallyFarApartOnEachArm() {
    for (int arm = 0; arm < 2; arm++) {
      double first = DIVERGING.at(arm / 2.0).distance(DIVERGING.at(arm / 2.0 + 0.05));
      for (int i = 1; i < 10; i++) {
        double t = arm / 2.0 + i * 0.05;
        assertEquals(first, DIVERGING.at(t).distance(DIVERGING.at(t + 0.05)), 1e-9);
      }
    }
  }

  /** In 8-bit sRGB as well, so that a printed grey copy still tells more from less. */
  @Test
  void lightnessRisesWithThickness() {
    for (int i = 0; i < 100; i++) {
      double here = OkLab.ofRgb(SEQUENTIAL.rgb(i / 100.0)).lightness();
      double next = OkLab.ofRgb(SEQUENTIAL.rgb((i + 1) / 100.0)).lightness();
      assertTrue(next > here, "at " + i);
    }
  }

  @Test
  void lightnessOfADifferenceFallsFromTheMiddleAlikeOnBothSides() {
    for (int i = 0; i < 50; i++) {
      double below = DIVERGING.at(0.5 - i / 100.0).lightness();
      double above = DIVERGING.at(0.5 + i / 100.0).lightness();
      assertEquals(below, above, 1e-9);
      assertTrue(DIVERGING.at(0.5 + (i + 1) / 100.0).lightness() < above);
    }
  }

  /** 0.02 in OKLab is about the smallest difference seen side by side (common practice). */
  @ParameterizedTest
  @EnumSource(Sight.class)
  void thicknessesATenthOfTheScaleApartAreToldApart(Sight sight) {
    for (int i = 0; i <= 20; i++) {
      for (int j = i + 2; j <= 20; j++) {
        OkLab one = sight.see(SEQUENTIAL.at(i / 20.0));
        OkLab two = sight.see(SEQUENTIAL.at(j / 20.0));
        assertTrue(one.distance(two) > 0.06, i + " and " + j + ": " + one.distance(two));
        assertTrue(two.lightness() > one.lightness());
      }
    }
  }

  @ParameterizedTest
  @EnumSource(Sight.class)
  void thinnerAndThickerAreToldApart(Sight sight) {
    for (int i = 2; i <= 10; i++) {
      OkLab thinner = sight.see(DIVERGING.at(0.5 - i / 20.0));
      OkLab thicker = sight.see(DIVERGING.at(0.5 + i / 20.0));
      OkLab none = sight.see(DIVERGING.at(0.5));
      assertTrue(thinner.distance(thicker) > 0.035, i + ": " + thinner.distance(thicker));
      assertTrue(thinner.distance(none) > 0.1);
      assertTrue(thicker.distance(none) > 0.1);
    }
  }

  @Test
  void endsHoldBeyondTheScaleAndNoValueHasNoColour() {
    assertEquals(SEQUENTIAL.rgb(0), SEQUENTIAL.rgb(-3));
    assertEquals(SEQUENTIAL.rgb(1), SEQUENTIAL.rgb(Double.POSITIVE_INFINITY));
    assertEquals(0xf3f3f3, DIVERGING.rgb(0.5));
    assertThrows(IllegalArgumentException.class, () -> SEQUENTIAL.rgb(Double.NaN));
  }
}
