package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.RepeatNoise;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PublishedNoiseTest {
  /** Published coefficients of repeatability of the central mean, 1.96 √2 Sw (IOVS 2189458). */
  @ParameterizedTest
  @CsvSource({"dme,10.7,68", "dme-not-aligned,27.0,68", "dmo-not-central,20,601", "namd,30.6,40"})
  void turnsCoefficientsOfRepeatabilityIntoStandardDeviations(
      String population, double coefficient, int eyes) {
    SectorNoise noise = centre(population);

    assertEquals(coefficient / (1.96 * Math.sqrt(2)), noise.sdUm(), 0.005);
    assertEquals(eyes, noise.degreesOfFreedom());
    assertEquals(NoiseSource.PUBLISHED, noise.source());
  }

  @Test
  void knowsTheCentreAndTheWholeOfNormalEyesOnly() {
    RepeatNoise noise = PublishedNoise.of(Layer.ILM_BM, EtdrsGrids.ETDRS_1_3_6, "normal");

    assertEquals(6.69, centre("normal").sdUm());
    assertEquals(2.55, noise.sector("total").orElseThrow().sdUm());
    assertTrue(noise.sector("inner-nasal").isEmpty());
    assertTrue(noise.points().isEmpty());
    assertTrue(noise.gap().contains("nothing published at hand"), noise.gap());
  }

  @Test
  void doesNotCarryFiguresToOtherLayersOrGrids() {
    for (Layer layer : LayerCatalogue.ALL) {
      boolean known =
          !PublishedNoise.of(layer, EtdrsGrids.ETDRS_1_3_6, "normal").sectors().isEmpty();
      assertEquals(layer.equals(Layer.ILM_BM), known, layer.name());
    }
    assertTrue(
        PublishedNoise.of(Layer.ILM_BM, EtdrsGrids.ETDRS_1_2_22_3_45, "normal")
            .sectors()
            .isEmpty());
  }

  @Test
  void everyRowNamesItsSource() {
    for (String population : NoiseChoice.populations()) {
      assertFalse(centre(population).reference().isBlank());
    }
  }

  private static SectorNoise centre(String population) {
    return PublishedNoise.of(Layer.ILM_BM, EtdrsGrids.ETDRS_1_3_6, population)
        .sector("centre")
        .orElseThrow();
  }
}
