package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.scan.GreyRange;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** Lines to surfaces: order, and the reason where there is no depth. */
class SurfaceBuilderTest {
  private static final int ASCANS = 80;
  private static final int DEPTHS = 200;
  private static final double MICROMETRES_PER_PIXEL = 3.87;

  private final Map<Boundary, float[]> depths = new EnumMap<>(Boundary.class);
  private TissueMaps cells;
  private float[] picture;

  @BeforeEach
  void layOutAHealthyFrame() {
    cells = TissueMaps.of(ASCANS / 4, DEPTHS / 2);
    for (int c = 0; c < cells.columns(); c++) {
      cells.layers(c, 9, 13, 18, 23, 28, 33, 41, 46, 51, 56, 58, 75);
    }
    for (Boundary boundary : Boundary.values()) {
      float[] line = new float[ASCANS];
      Arrays.fill(line, 20 + 12 * List.of(Boundary.values()).indexOf(boundary));
      depths.put(boundary, line);
    }
    picture = new float[ASCANS * DEPTHS];
    for (int i = 0; i < picture.length; i++) {
      picture[i] = 20 + i * 7919L % 50;
    }
  }

  /** Returns the surfaces of a scan of two frames; the first is the one laid out. */
  private BoundarySet build() {
    SurfaceBuilder builder =
        new SurfaceBuilder(new ScanSize(2, ASCANS, DEPTHS), ConfidenceScale.shipped());
    Map<Boundary, TracedLine> lines = new EnumMap<>(Boundary.class);
    float[] calm = new float[ASCANS];
    depths.forEach(
        (boundary, line) ->
            lines.put(
                boundary,
                TracedLine.of(boundary, line.clone(), line, calm, calm, MICROMETRES_PER_PIXEL, 5)));
    FrameConditioner.Margins margins =
        new FrameConditioner(ASCANS, DEPTHS, new GreyRange(0, 255)).clean(picture);
    builder.add(0, lines, margins, cells.build(), MICROMETRES_PER_PIXEL);
    return builder.build();
  }

  private static Absence absence(BoundarySet set, Boundary boundary, int ascan) {
    return set.surface(boundary).orElseThrow().absence(0, ascan);
  }

  private static float depth(BoundarySet set, Boundary boundary, int ascan) {
    return set.surface(boundary).orElseThrow().depthPx(0, ascan);
  }

  @Test
  void depthsOfAHealthyFrameArePassedOnAsTheyAre() {
    BoundarySet set = build();
    assertEquals(Arrays.asList(Boundary.values()), set.boundaries().stream().toList());
    for (Boundary boundary : Boundary.values()) {
      for (int a = 0; a < ASCANS; a++) {
        assertEquals(
            20 + 12 * List.of(Boundary.values()).indexOf(boundary), depth(set, boundary, a), 0f);
        assertEquals(Absence.NONE, absence(set, boundary, a));
        float confidence = set.surface(boundary).orElseThrow().confidence(0, a);
        assertTrue(confidence > 0 && confidence <= 1);
      }
    }
  }

  @Test
  void aFrameThatWasNotAddedIsDark() {
    BoundarySet set = build();
    for (Boundary boundary : Boundary.values()) {
      for (int a = 0; a < ASCANS; a++) {
        assertTrue(Float.isNaN(set.surface(boundary).orElseThrow().depthPx(1, a)));
        assertEquals(Absence.DARK_FRAME, set.surface(boundary).orElseThrow().absence(1, a));
      }
    }
  }

  @Test
  void linesThatCrossMeetAtTheOuterOne() {
    depths.get(Boundary.GCL_IPL)[10] = 75;
    depths.get(Boundary.IPL_INL)[10] = 61;
    depths.get(Boundary.INL_OPL)[10] = 63;
    BoundarySet set = build();
    assertEquals(61, depth(set, Boundary.GCL_IPL, 10));
    assertEquals(61, depth(set, Boundary.IPL_INL, 10));
    assertEquals(63, depth(set, Boundary.INL_OPL, 10));
    assertEquals(80, depth(set, Boundary.OPL_ONL, 10));
    assertEquals(44, depth(set, Boundary.GCL_IPL, 11));
  }

  @Test
  void aLineOutsideTheFrameIsCutOff() {
    depths.get(Boundary.ILM)[5] = 1;
    depths.get(Boundary.ILM)[6] = -7;
    depths.get(Boundary.ILM)[7] = 2;
    depths.get(Boundary.CHOROID_SCLERA)[8] = DEPTHS - 1 - 1;
    depths.get(Boundary.CHOROID_SCLERA)[9] = DEPTHS - 1 - 2;
    BoundarySet set = build();
    assertEquals(Absence.OUT_OF_FRAME, absence(set, Boundary.ILM, 5));
    assertEquals(Absence.OUT_OF_FRAME, absence(set, Boundary.ILM, 6));
    assertEquals(Absence.NONE, absence(set, Boundary.ILM, 7));
    assertEquals(Absence.OUT_OF_FRAME, absence(set, Boundary.CHOROID_SCLERA, 8));
    assertEquals(Absence.NONE, absence(set, Boundary.CHOROID_SCLERA, 9));
    assertEquals(Absence.NONE, absence(set, Boundary.BM, 8));
    assertTrue(Float.isNaN(depth(set, Boundary.ILM, 5)));
    assertEquals(0, set.surface(Boundary.ILM).orElseThrow().confidence(0, 5));
  }

  /** 30 saturated rows at the top of some A-scans, and 2 more that their edge spoils. */
  @Test
  void aLineInAMarginIsCovered() {
    for (int a = 30; a < 40; a++) {
      for (int d = 0; d < 30; d++) {
        picture[d * ASCANS + a] = 255;
      }
      for (int d = DEPTHS - 60; d < DEPTHS; d++) {
        picture[d * ASCANS + a] = 255;
      }
    }
    BoundarySet set = build();
    for (int a = 0; a < ASCANS; a++) {
      Absence expected = a >= 30 && a < 40 ? Absence.MARGIN : Absence.NONE;
      assertEquals(expected, absence(set, Boundary.ILM, a));
      // At depth 32: in row 33 of the margin and its edge.
      assertEquals(expected, absence(set, Boundary.RNFL_GCL, a));
      assertEquals(Absence.NONE, absence(set, Boundary.GCL_IPL, a));
      // The lower margin begins at depth 138: the line at 140 lies in it, that at 128 does not.
      assertEquals(expected, absence(set, Boundary.BM, a));
      assertEquals(Absence.NONE, absence(set, Boundary.RPE, a));
    }
  }

  @Test
  void onlyTheInnerSurfaceIsThereInTheDisc() {
    cells.fill(Tissue.DISC, 9, DEPTHS / 2, 6, 14);
    BoundarySet set = build();
    for (Boundary boundary : Boundary.values()) {
      Absence expected = boundary == Boundary.ILM ? Absence.NONE : Absence.DISC;
      assertEquals(expected, absence(set, boundary, 40));
      assertEquals(Absence.NONE, absence(set, boundary, 2));
    }
  }

  @Test
  void boundariesOfLostLayersAreLost() {
    for (int c = 6; c < 14; c++) {
      cells.layers(c, 9, 13, 18, 23, 28, 33, 46, 46, 46, 51, 53, 75);
    }
    BoundarySet set = build();
    assertEquals(Absence.LAYER_LOST, absence(set, Boundary.ELM, 40));
    assertEquals(Absence.LAYER_LOST, absence(set, Boundary.EZ, 40));
    assertEquals(Absence.NONE, absence(set, Boundary.RPE, 40));
    assertEquals(Absence.NONE, absence(set, Boundary.EZ, 2));
  }

  /** A line that has no depth does not hold the others apart. */
  @Test
  void orderIsKeptAcrossALostLine() {
    for (int c = 6; c < 14; c++) {
      cells.layers(c, 9, 13, 18, 23, 28, 33, 46, 46, 46, 51, 53, 75);
    }
    depths.get(Boundary.EZ)[40] = 60;
    depths.get(Boundary.OPL_ONL)[40] = 81;
    depths.get(Boundary.RPE_INNER)[40] = 79;
    BoundarySet set = build();
    assertTrue(Float.isNaN(depth(set, Boundary.EZ, 40)));
    assertEquals(79, depth(set, Boundary.OPL_ONL, 40));
    assertEquals(68, depth(set, Boundary.INL_OPL, 40));
  }
}
