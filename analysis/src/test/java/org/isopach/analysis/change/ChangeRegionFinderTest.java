package org.isopach.analysis.change;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.testing.Surface;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class ChangeRegionFinderTest {
  private final ChangeRegionFinder finder = new ChangeRegionFinder();

  @ParameterizedTest
  @EnumSource(Laterality.class)
  void findsWhereItGrewAndWhereItShrank(Laterality eye) {
    // 20 µm thicker within 0.5 mm of a place 1.5 mm nasal, 15 µm thinner 1.2 mm below the centre.
    double sign = eye.nasalSign();
    Surface after =
        (x, y) ->
            300
                + (Math.hypot(x - 1.5 * sign, y) < 0.5 ? 20 : 0)
                - (Math.hypot(x, y - 1.2) < 0.3 ? 15 : 0);

    ChangeRegionFinder.Found found = find(eye, after, 1);

    List<ChangeRegion> regions = sought(found).regions();
    assertEquals(2, regions.size());
    ChangeRegion grown = regions.get(0);
    assertTrue(grown.thicker());
    assertEquals(1.5, grown.nasalMm(), 0.01);
    assertEquals(0, grown.superiorMm(), 0.01);
    // Smoothing carries the rim outwards: to where 20 µm have fallen to the threshold.
    assertEquals(Math.PI * 0.6 * 0.6, grown.areaMm2(), 0.2);
    assertEquals(20, grown.peakUm(), 0.1);
    assertEquals(grown.meanUm() * grown.areaMm2() / 1000, grown.volumeMm3(), 1e-12);
    assertEquals(20 * Math.PI * 0.25 / 1000, grown.volumeMm3(), 0.0005);
    ChangeRegion shrunk = regions.get(1);
    assertFalse(shrunk.thicker());
    assertEquals(-1.2, shrunk.superiorMm(), 0.01);
    assertTrue(shrunk.peakUm() < -10);
    int column = (int) Math.round((1.5 * sign + 3) / 0.05);
    assertEquals(1, found.mask().region(60, column));
    assertEquals(0, found.mask().region(60, 60));
  }

  @Test
  void findsNothingInNoiseAlone() {
    java.util.SplittableRandom random = new java.util.SplittableRandom(20260301);
    // 10 µm in each cell are 10 / √(4π) × 0.05 / 0.12 = 1.18 µm after smoothing.
    ChangeRegionFinder.Found found =
        find(Laterality.RIGHT, (x, y) -> 300 + 10 * random.nextGaussian(), 1.18 / Math.sqrt(2));

    assertEquals(List.of(), sought(found).regions());
    assertEquals(9 * Math.PI, sought(found).lookedAtMm2(), 0.1);
  }

  @Test
  void leavesOutWhatIsSmallerThanTheResolution() {
    Surface after = (x, y) -> 300 + (Math.hypot(x - 1, y - 1) < 0.06 ? 40 : 0);

    assertEquals(List.of(), sought(find(Laterality.RIGHT, after, 2.2)).regions());
    assertEquals(1, sought(find(Laterality.RIGHT, after, 0.2)).regions().size());
  }

  private ChangeRegionFinder.Found find(Laterality eye, Surface after, double pointSdUm) {
    return finder.find(Pairs.of(eye, (x, y) -> 300, after, 0), Pairs.noise(1, 10, pointSdUm));
  }

  private static ChangeRegions.Sought sought(ChangeRegionFinder.Found found) {
    return assertInstanceOf(ChangeRegions.Sought.class, found.regions());
  }
}
