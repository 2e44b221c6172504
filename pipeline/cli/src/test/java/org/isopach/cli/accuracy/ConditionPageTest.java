package org.isopach.cli.accuracy;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.Condition;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

class ConditionPageTest {
  private static final ScanPlan SPARSE = ScanPlan.raster(new ScanSize(21, 48, 496), 3.87, 6, 6, 0);

  private static List<ConditionResult> results(boolean refused) {
    List<ConditionResult> results = new ArrayList<>();
    for (Condition condition : Condition.values()) {
      PhantomScan phantom = PhantomScan.of(condition.parameters(5), SPARSE);
      ConditionScan scan =
          refused
              ? ConditionScorer.of(
                  5, phantom, Optional.empty(), RegionLabels.none(phantom.truth().size()))
              : ConditionScorer.of(
                  5, phantom, Optional.of(phantom.truth().boundaries()), TrueLabels.of(phantom));
      results.add(new ConditionResult(condition, List.of(scan)));
    }
    return results;
  }

  private static String page(List<ConditionResult> results) {
    Markdown page = new Markdown();
    ConditionBars.addTo(page, results);
    return page.toString();
  }

  private static List<String> rows(String page, String begin) {
    return Arrays.stream(page.split("\n")).filter(line -> line.startsWith("| " + begin)).toList();
  }

  @Test
  void theTruthMeetsEveryBarOfDepthsAndRegions() {
    List<ConditionResult> results = results(false);
    String page = page(results);
    for (String figure : List.of("healthy:", "poor snr:", "fluid over 5 nL: least")) {
      List<String> rows = rows(page, figure);
      assertFalse(rows.isEmpty(), figure);
      rows.forEach(row -> assertTrue(row.endsWith("| yes |"), row));
    }
    for (ConditionResult result : results) {
      assertTrue(page.contains("| " + result.name()), result.name());
      for (var boundary : result.scans().get(0).depths().keySet()) {
        assertEquals(0, result.depth(boundary).gross(), result.name() + boundary);
      }
    }
    Markdown details = new Markdown();
    new ConditionTables(details, results).addAll();
    new ConfidenceTables(details, results).addAll();
    assertTrue(details.toString().contains("| subretinal fluid | subretinal-fluid | 1 | 1.000"));
  }

  @Test
  void refusingEverythingMeetsNoBarOfDepths() {
    String page = page(results(true));
    rows(page, "healthy: worst").forEach(row -> assertTrue(row.endsWith("| **no** |"), row));
    List<String> row = rows(page, "cystoid oedema");
    assertEquals(1, row.size());
    assertTrue(row.get(0).endsWith("| 1/1 | **no** |"), row.get(0));
  }
}
