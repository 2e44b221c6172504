package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMap;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What neighbouring frames may and may not do to a frame. */
class LayerVolumeTest {
  private static final int FRAMES = 5;
  private static final int COLUMNS = 60;
  private static final int ROWS = 140;
  private static final double NEAR_MM = 0.05;
  private static final int SHADOW_FROM = 20;
  private static final int SHADOW_END = 40;

  private static ExecutorService pool;

  @BeforeAll
  static void start() {
    pool = Executors.newFixedThreadPool(2);
  }

  @AfterAll
  static void stop() {
    pool.shutdownNow();
  }

  /** All boundaries bend down by up to 6 rows where the shadow of another frame would fall. */
  private static int down(int column) {
    int middle = (SHADOW_FROM + SHADOW_END) / 2;
    return Math.max(0, 6 - Math.abs(column - middle) * 6 / 10);
  }

  private static TissueMaps bent(int moved) {
    TissueMaps cells = TissueMaps.of(COLUMNS, ROWS);
    double[] places = {20, 24, 29, 34, 39, 44, 52, 57, 62, 67, 71, 90};
    for (int c = 0; c < COLUMNS; c++) {
      int by = down(c) + moved;
      cells.layers(c, Arrays.stream(places).map(place -> place + by).toArray());
    }
    return cells;
  }

  /**
   * Tells nothing in the shadow: every cell is as probably in front of the eye's layers as behind.
   */
  private static TissueMaps shadowed() {
    TissueMaps cells = bent(0);
    for (int c = SHADOW_FROM; c < SHADOW_END; c++) {
      for (int r = 0; r < ROWS; r++) {
        int front = 127 + (r + c) % 2;
        cells.clear(r, c).set(Tissue.VITREOUS, r, c, front).set(Tissue.SCLERA, r, c, 255 - front);
      }
    }
    return cells;
  }

  private static TissueMap[] maps(TissueMaps third) {
    TissueMap[] maps = new TissueMap[FRAMES];
    Arrays.setAll(maps, f -> (f == 2 ? third : bent(0)).build());
    return maps;
  }

  private static LayerVolume search(TissueMap[] maps, double spacingMm, int threads)
      throws InterruptedException {
    FrameLoop loop = new FrameLoop(pool, threads);
    ScanPlan plan =
        ScanPlan.raster(new ScanSize(FRAMES, 32, 24), 3.87, 1, spacingMm * (FRAMES - 1), 0);
    OctScan scan = PhantomScan.of(PhantomParameters.draw(1), plan).scan();
    OctScan placed = spacingMm > 0 ? scan : Scans.withoutPath(scan);
    return LayerVolume.search(maps, SearchRules.MACULA, LoadedScan.read(placed, loop), loop);
  }

  /** Returns how far a boundary lies from where the eye has it in the shadow, in rows, at most. */
  private static int worst(LayerPaths paths, Boundary boundary) {
    int[] expected =
        new LayerSearch(SearchRules.MACULA, 2 * 3.87).search(bent(0).build()).rows(boundary);
    int worst = 0;
    for (int c = 0; c < COLUMNS; c++) {
      worst = Math.max(worst, Math.abs(paths.rows(boundary)[c] - expected[c]));
    }
    return worst;
  }

  private static void assertAlone(TissueMap map, LayerPaths paths) {
    LayerPaths alone = new LayerSearch(SearchRules.MACULA, 2 * 3.87).search(map);
    for (Boundary boundary : Boundary.values()) {
      assertArrayEquals(alone.rows(boundary), paths.rows(boundary), boundary.toString());
      assertArrayEquals(alone.places(boundary), paths.places(boundary), 0f);
    }
  }

  @Test
  void aShadowedFrameIsDrawnToItsNeighbours() throws InterruptedException {
    TissueMap[] maps = maps(shadowed());
    LayerPaths alone = new LayerSearch(SearchRules.MACULA, 2 * 3.87).search(maps[2]);
    LayerPaths together = search(maps, NEAR_MM, 2).paths(2);
    for (Boundary boundary : Boundary.values()) {
      assertTrue(worst(alone, boundary) >= 4, "alone " + boundary);
      assertTrue(
          worst(together, boundary) <= 1, boundary + " is off by " + worst(together, boundary));
    }
  }

  @Test
  void goodFramesBesideAShadowedOneStayAsTheyAre() throws InterruptedException {
    TissueMap[] maps = maps(shadowed());
    LayerVolume volume = search(maps, NEAR_MM, 2);
    for (int f : new int[] {0, 1, 3, 4}) {
      assertAlone(maps[f], volume.paths(f));
    }
  }

  /** Between frames the eye moves along the axis, and all boundaries of a frame with it. */
  @Test
  void aFrameThatMovedAlongTheAxisIsLeftAlone() throws InterruptedException {
    for (int moved : new int[] {-15, 9, 40}) {
      TissueMap[] maps = maps(bent(moved));
      LayerVolume volume = search(maps, NEAR_MM, 2);
      for (int f = 0; f < FRAMES; f++) {
        assertAlone(maps[f], volume.paths(f));
      }
    }
  }

  @Test
  void aShadowedFrameThatMovedIsDrawnToItsMovedNeighbours() throws InterruptedException {
    TissueMap[] maps = maps(shadowed());
    for (int f : new int[] {0, 1, 3, 4}) {
      maps[f] = bent(f % 2 == 0 ? 25 : 30).build();
    }
    LayerPaths together = search(maps, NEAR_MM, 2).paths(2);
    for (Boundary boundary : Boundary.values()) {
      assertTrue(
          worst(together, boundary) <= 1, boundary + " is off by " + worst(together, boundary));
    }
  }

  @Test
  void farNeighboursSayNothing() throws InterruptedException {
    TissueMap[] maps = maps(shadowed());
    assertAlone(maps[2], search(maps, 3, 2).paths(2));
    assertAlone(maps[2], search(maps, /* spacingMm= */ 0, 2).paths(2));
  }

  @Test
  void framesThatShowNothingAreLeftOut() throws InterruptedException {
    TissueMap[] maps = maps(shadowed());
    maps[1] = null;
    LayerVolume volume = search(maps, NEAR_MM, 2);
    assertNull(volume.paths(1));
    assertNull(volume.map(1));
    assertNotNull(volume.paths(2));
    assertEquals(maps[2], volume.map(2));
    assertTrue(worst(volume.paths(2), Boundary.BM) <= 1, "the frame behind still draws it");
  }

  @Test
  void numberOfThreadsDoesNotMatter() throws InterruptedException {
    TissueMap[] maps = maps(shadowed());
    LayerVolume one = search(maps, NEAR_MM, 1);
    LayerVolume two = search(maps, NEAR_MM, 2);
    for (int f = 0; f < FRAMES; f++) {
      for (Boundary boundary : Boundary.values()) {
        assertArrayEquals(one.paths(f).places(boundary), two.paths(f).places(boundary), 0f);
      }
    }
  }
}
