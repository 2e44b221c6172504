package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

/** A scan of the disc read as one of the macula: its cup is a dip as round as a fovea. */
class CupIsNoFoveaTest {
  @Test
  void cupOfTheDiscIsNotTakenForTheFovea() throws InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(2);
    try {
      ScanPlan plan = ScanPlan.radial(new ScanSize(12, 768, 496), 3.87, 6);
      PhantomScan disc = PhantomScan.of(PhantomParameters.drawNerve(2113), plan);
      SegmentationResult result = new RetinaSegmenter(pool, 2).segment(disc.scan());
      assertEquals(Optional.empty(), result.fovea());
      assertTrue(
          result.findings().stream()
              .anyMatch(
                  finding ->
                      finding.kind() == FindingKind.FOVEA_NOT_FOUND
                          && finding.detail().contains("a cup, no fovea")));
    } finally {
      pool.shutdownNow();
    }
  }
}
