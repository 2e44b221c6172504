package org.isopach.analysis.grid;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.MapLattice;
import org.junit.jupiter.api.Test;

class CellOverlapTest {
  private static final int FINE = 400;

  @Test
  void agreesWithCountingPoints() {
    Random random = new Random(17);
    int partial = 0;
    for (int round = 0; round < 300; round++) {
      double inner = random.nextInt(3) == 0 ? 0 : random.nextDouble();
      double from = 360 * random.nextDouble() - 180;
      double extent = random.nextInt(4) == 0 ? 360 : 5 + 175 * random.nextDouble();
      Sector sector =
          new Sector("any", inner, inner + 0.05 + random.nextDouble(), from, from + extent);
      double side = 0.02 + 0.7 * random.nextDouble();
      double u = 2 * random.nextDouble() - 1;
      double v = 2 * random.nextDouble() - 1;

      double area = new CellOverlap(sector).areaMm2(u, v, side);

      // Each of the few borders misjudges at most about one row of points.
      assertEquals(counted(sector, u, v, side), area, side * side * 8.0 / FINE);
      partial += area > 0 && area < side * side ? 1 : 0;
    }
    assertTrue(partial > 80, "only " + partial + " cells were cut");
  }

  @Test
  void fillsEverySectorExactly() {
    MapLattice lattice = new MapLattice(97, 83, 0.0701, -2.871, -3.333);
    for (SectorGrid grid :
        new SectorGrid[] {EtdrsGrids.ETDRS_1_3_6, EtdrsGrids.ETDRS_1_2_22_3_45}) {
      for (Sector sector : grid.sectors()) {
        // A lattice in no relation to the circles; large enough to hold them but at the edges.
        MapLattice wide = new MapLattice(100, 100, 0.0701, -3.471, -3.333);
        assertEquals(sector.areaMm2(), sum(sector, wide), 1e-10, sector.name());
        assertTrue(sum(sector, lattice) <= sector.areaMm2() + 1e-10);
      }
    }
  }

  @Test
  void splitsACellAmongTheSectorsThatMeetInIt() {
    double shared = 0;
    for (Sector sector : EtdrsGrids.ETDRS_1_3_6.sectors()) {
      shared += new CellOverlap(sector).areaMm2(0.36, 0.35, 0.05);
    }
    assertEquals(0.05 * 0.05, shared, 1e-15);
  }

  private static double sum(Sector sector, MapLattice lattice) {
    SectorWeights weights = SectorWeights.of(sector, lattice, Laterality.LEFT);
    double sum = 0;
    for (int i = 0; i < weights.size(); i++) {
      sum += weights.areaMm2(i);
    }
    return sum;
  }

  private static double counted(Sector sector, double u, double v, double side) {
    int inside = 0;
    for (int i = 0; i < FINE; i++) {
      for (int j = 0; j < FINE; j++) {
        double x = u + side * ((i + 0.5) / FINE - 0.5);
        double y = v + side * ((j + 0.5) / FINE - 0.5);
        double r = Math.hypot(x, y);
        double ahead = Math.toDegrees(Math.atan2(y, x)) - sector.fromDegrees();
        ahead -= 360 * Math.floor(ahead / 360);
        if (r >= sector.innerRadiusMm()
            && r < sector.outerRadiusMm()
            && ahead < sector.extentDegrees()) {
          inside++;
        }
      }
    }
    return side * side * inside / ((double) FINE * FINE);
  }
}
