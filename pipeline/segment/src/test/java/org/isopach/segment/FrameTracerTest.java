package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.geometry.AxialScale;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.Test;

/** From places on a map to lines in pixels, and what is said for them. */
class FrameTracerTest {
  private static final int COLUMNS = 32;
  private static final int ROWS = 124;
  private static final ScanSize SIZE = new ScanSize(1, 4 * COLUMNS, 2 * ROWS);
  private static final AxialScale AXIAL = AxialScale.ofMicrometresPerPixel(3.87);
  private static final double ASCAN_MICROMETRES = 11.7;

  private static TissueMaps layers() {
    TissueMaps cells = TissueMaps.of(COLUMNS, ROWS);
    for (int c = 0; c < COLUMNS; c++) {
      cells.layers(c, 29, 33, 38, 43.4, 48, 53, 61.2, 66, 71, 76, 78, 95);
    }
    return cells;
  }

  private static Map<Boundary, TracedLine> trace(TissueMaps cells) throws InterruptedException {
    ExecutorService pool = Executors.newFixedThreadPool(1);
    try {
      ScanPlan plan = ScanPlan.raster(SIZE, 3.87, ASCAN_MICROMETRES * SIZE.ascans() / 1000, 0, 0);
      OctScan scan = PhantomScan.of(PhantomParameters.draw(5), plan).scan();
      LoadedScan loaded = LoadedScan.read(scan, new FrameLoop(pool, 1));
      LayerPaths paths = new LayerSearch(SearchRules.MACULA, 2 * 3.87).search(cells.build());
      return new FrameTracer(AXIAL, ASCAN_MICROMETRES)
          .trace(loaded.view(0), cells.build(), paths, loaded.contrastToNoise(0));
    } finally {
      pool.shutdownNow();
    }
  }

  /**
   * Boundaries that have no edge of their own lie where the map has them: a border before row 38 of
   * 2 pixels lies between pixels 75 and 76.
   */
  @Test
  void withoutAnEdgeTheLineIsTheMaps() throws InterruptedException {
    Set<Boundary> checked = EnumSet.noneOf(Boundary.class);
    double[] expected = {
      57.5, 65.5, 75.5, 86.3, 95.5, 105.5, 121.9, 131.5, 141.5, 151.5, 155.5, 189.5
    };
    for (Map.Entry<Boundary, TracedLine> entry : trace(layers()).entrySet()) {
      if (BoundaryRules.of(entry.getKey()) == null) {
        checked.add(entry.getKey());
        double depth = expected[List.of(Boundary.values()).indexOf(entry.getKey())];
        double place = (depth + 0.5) / 2;
        for (int a = 0; a < SIZE.ascans(); a++) {
          assertEquals(depth, entry.getValue().depthPx(a), 0.01, entry.getKey().toString());
          assertEquals(0, entry.getValue().evidence(a).moveMicrometres(), 1e-6);
          double doubt = entry.getValue().evidence(a).doubt();
          assertEquals(Math.abs(place - Math.rint(place)), doubt, 1e-3);
          assertEquals(0, entry.getValue().evidence(a).bendMicrometres(), 0.05);
        }
      }
    }
    assertTrue(checked.contains(Boundary.IPL_INL) && checked.contains(Boundary.ELM));
  }

  /** Doubt that sets in steeply near the frame's side must not be extrapolated to below none. */
  @Test
  void doubtIsNeverNegativeAndConfidenceAlwaysANumber() throws InterruptedException {
    for (int clear = 1; clear < 5; clear++) {
      TissueMaps cells = layers();
      for (int c = clear; c < COLUMNS; c++) {
        int weight = Math.min(127, 40 * (c - clear));
        for (int r = 0; r < ROWS; r++) {
          blend(cells, r, c, weight);
        }
      }
      for (Map.Entry<Boundary, TracedLine> entry : trace(cells).entrySet()) {
        for (int a = 0; a < SIZE.ascans(); a++) {
          Evidence evidence = entry.getValue().evidence(a);
          String name = entry.getKey() + " with " + clear + " clear columns, A-scan " + a;
          assertTrue(evidence.doubt() >= 0, () -> name + ": " + evidence);
          double confidence = ConfidenceScale.shipped().confidence(evidence);
          assertTrue(confidence >= 0 && confidence <= 1, () -> name + ": " + evidence);
        }
      }
    }
  }

  /** Takes so many steps of a cell's 255 from its tissue, half for what is before, half behind. */
  private static void blend(TissueMaps cells, int row, int column, int weight) {
    for (Tissue tissue : Tissue.values()) {
      int had = cells.get(tissue, row, column);
      cells.set(tissue, row, column, had * (255 - 2 * weight) / 255);
    }
    for (Tissue tissue : new Tissue[] {Tissue.VITREOUS, Tissue.SCLERA}) {
      cells.set(tissue, row, column, cells.get(tissue, row, column) + weight);
    }
  }
}
