package org.isopach.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.SectorTabulator;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.report.SampleMaps;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The published outer ring (BMC Ophthalmol 2018;18:169, table 6) is 33.7 µm thicker nasally than
 * temporally: a slope of 8 µm per mm between the sectors' centroids at 2.10 mm.
 */
class LateralityDoubtTest {
  private static final double SLOPE = 8;

  @ParameterizedTest
  @EnumSource(Laterality.class)
  void publishedSlopeTowardsTheNoseIsNotDoubted(Laterality eye) {
    assertEquals(Optional.empty(), doubt(eye, SLOPE * eye.nasalSign()));
  }

  @ParameterizedTest
  @EnumSource(Laterality.class)
  void publishedSlopeTheOtherWayIsDoubted(Laterality eye) {
    Finding finding = doubt(eye, -SLOPE * eye.nasalSign()).orElseThrow();
    assertEquals(FindingKind.LATERALITY_DOUBTFUL, finding.kind());
    assertTrue(finding.detail().contains(eye.word() + " eye"), finding.detail());
    assertTrue(finding.detail().contains("34 µm"), finding.detail());
  }

  @Test
  void evenRetinaIsNotDoubted() {
    assertEquals(Optional.empty(), doubt(Laterality.LEFT, 0));
  }

  private static Optional<Finding> doubt(Laterality eye, double umPerMm) {
    ThicknessMap map = SampleMaps.map(eye, (x, y) -> 300 + umPerMm * x);
    MappedLayer layer =
        new MappedLayer(map, new SectorTabulator().tabulate(map, EtdrsGrids.ETDRS_1_3_6, 0.9));
    return LateralityDoubt.of(List.of(layer), "scan");
  }
}
