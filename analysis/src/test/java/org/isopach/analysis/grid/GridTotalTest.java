package org.isopach.analysis.grid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Expected values are closed forms over the areas of the 1, 3 and 6 mm circles. */
class GridTotalTest {
  @Test
  void weighsSectorsByArea() {
    Measured total = total(270, 340, 340, 340, 340, 295, 295, 295, 295);

    assertEquals(304.305556, total.meanUm(), 5e-7);
    assertEquals(8.604037, total.volumeMm3(), 5e-7);
    assertEquals(28.274333882, total.areaMm2(), 5e-10);
    assertEquals(270, total.minUm());
    assertEquals(340, total.maxUm());
    double variance =
        (Math.pow(270 - 304.305556, 2)
                + 8 * Math.pow(340 - 304.305556, 2)
                + 27 * Math.pow(295 - 304.305556, 2))
            / 36;
    assertEquals(Math.sqrt(variance), total.sdUm(), 1e-5);
  }

  /** Means of normal eyes: BMC Ophthalmology 2018;18:169, table 6. */
  @Test
  void givesTheVolumeOfAPublishedTable() {
    Measured total = total(257.04, 339.37, 339.58, 335.10, 324.92, 300.39, 317.43, 287.16, 283.77);

    assertEquals(304.417847, total.meanUm(), 5e-7);
    assertEquals(8.607212, total.volumeMm3(), 5e-7);
  }

  private static Measured total(double... means) {
    List<SectorResult> results = new ArrayList<>();
    for (int i = 0; i < means.length; i++) {
      Sector sector = EtdrsGrids.ETDRS_1_3_6.sectors().get(i);
      results.add(
          new Measured(sector.name(), means[i], 0, means[i], means[i], sector.areaMm2(), 1));
    }
    return assertInstanceOf(Measured.class, GridTotal.of(results));
  }
}
