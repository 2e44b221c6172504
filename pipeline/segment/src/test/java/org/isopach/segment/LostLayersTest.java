package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.EnumSet;
import java.util.Set;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMaps;
import org.junit.jupiter.api.Test;

/** Where boundaries are absent: in the disc, over lost photoreceptors or pigment epithelium. */
class LostLayersTest {
  private static final int COLUMNS = 40;
  private static final int ROWS = 100;
  private static final int FROM = 12;
  private static final int END = 28;

  /** So far from a change the smoothing along the frame has done with it. */
  private static final int SMOOTHED = 4;

  /** Two depth pixels a row. */
  private static final double MICROMETRES_PER_PIXEL = 3.87;

  private static TissueMaps whole() {
    TissueMaps cells = TissueMaps.of(COLUMNS, ROWS);
    for (int c = 0; c < COLUMNS; c++) {
      cells.layers(c, 9, 13, 18, 23, 28, 33, 41, 46, 51, 56, 58, 75);
    }
    return cells;
  }

  /** Lays columns FROM to END out anew. */
  private static TissueMaps changed(double... places) {
    TissueMaps cells = whole();
    for (int c = FROM; c < END; c++) {
      cells.layers(c, places);
    }
    return cells;
  }

  private static void assertAbsent(TissueMaps cells, Set<Boundary> absent, Absence why) {
    LostLayers lost = new LostLayers(cells.build(), MICROMETRES_PER_PIXEL);
    for (Boundary boundary : Boundary.values()) {
      for (int c = 0; c < COLUMNS; c++) {
        boolean inside = c >= FROM + SMOOTHED && c < END - SMOOTHED;
        boolean beside = !inside && c >= FROM - SMOOTHED && c < END + SMOOTHED;
        Absence expected = inside && absent.contains(boundary) ? why : Absence.NONE;
        if (!beside) {
          assertEquals(expected, lost.absence(boundary, c), boundary + ", column " + c);
        }
      }
    }
  }

  @Test
  void nothingIsAbsentFromAWholeRetina() {
    assertAbsent(whole(), Set.of(), Absence.NONE);
  }

  @Test
  void onlyTheInnerSurfaceIsThereInTheDisc() {
    TissueMaps cells = whole().fill(Tissue.DISC, 9, ROWS, FROM, END);
    assertAbsent(cells, EnumSet.complementOf(EnumSet.of(Boundary.ILM)), Absence.DISC);
  }

  @Test
  void aLittleDiscIsNoDisc() {
    TissueMaps cells = whole().fill(Tissue.DISC, 9, 29, FROM, END);
    assertAbsent(cells, Set.of(), Absence.NONE);
  }

  @Test
  void lostPhotoreceptorsTakeTheirTwoBoundaries() {
    // Segments end where they begin: between 46 and 46 rows.
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 46, 46, 46, 51, 53, 75),
        EnumSet.of(Boundary.ELM, Boundary.EZ),
        Absence.LAYER_LOST);
  }

  @Test
  void lostEpitheliumTakesItsTwoBoundaries() {
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 41, 46, 51, 51, 51, 75),
        EnumSet.of(Boundary.RPE_INNER, Boundary.RPE),
        Absence.LAYER_LOST);
  }

  @Test
  void bruchsMembraneOutlivesAllThatLiesOnIt() {
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 46, 46, 46, 46, 46, 75),
        EnumSet.of(Boundary.ELM, Boundary.EZ, Boundary.RPE_INNER, Boundary.RPE),
        Absence.LAYER_LOST);
  }

  /** Ten µm are 1.29 rows of 7.74 µm: a layer of 1.4 rows is thin, one of 1.2 is lost. */
  @Test
  void tenMicrometresOfPhotoreceptorsAreTheLeastOverWholeEpithelium() {
    assertAbsent(changed(9, 13, 18, 23, 28, 33, 41, 46, 47.4, 51, 53, 75), Set.of(), Absence.NONE);
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 41, 46, 47.2, 51, 53, 75),
        EnumSet.of(Boundary.ELM, Boundary.EZ),
        Absence.LAYER_LOST);
  }

  /** Six µm are 0.775 rows. */
  @Test
  void sixMicrometresOfEpitheliumAreTheLeastUnderWholePhotoreceptors() {
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 41, 46, 51, 51.4, 51.8, 75), Set.of(), Absence.NONE);
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 41, 46, 51, 51.4, 51.6, 75),
        EnumSet.of(Boundary.RPE_INNER, Boundary.RPE),
        Absence.LAYER_LOST);
  }

  /** Both thin, under 20 and under 15 µm (2.58 and 1.94 rows), are both lost. */
  @Test
  void bothAreLostWhereBothAreThin() {
    Set<Boundary> all = EnumSet.of(Boundary.ELM, Boundary.EZ, Boundary.RPE_INNER, Boundary.RPE);
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 41, 46, 48.4, 49, 50.2, 75), all, Absence.LAYER_LOST);
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 41, 46, 48.8, 49, 50.2, 75), Set.of(), Absence.NONE);
    assertAbsent(
        changed(9, 13, 18, 23, 28, 33, 41, 46, 48.4, 49, 50.6, 75), Set.of(), Absence.NONE);
  }

  /** Bright matter covers photoreceptors that may well be there. */
  @Test
  void matterUnderTheRetinaIsNoLossOfPhotoreceptors() {
    TissueMaps cells = whole().fill(Tissue.HYPERREFLECTIVE_MATERIAL, 41, 51, FROM, END);
    assertAbsent(cells, Set.of(), Absence.NONE);
  }

  @Test
  void shareOfTheDiscIsOfWhatIsDiscOrLayer() {
    TissueMaps cells = whole().fill(Tissue.DISC, 9, 58, FROM, END);
    float[] share = LostLayers.discShare(cells.build());
    assertEquals(1, share[(FROM + END) / 2], 0.01);
    assertEquals(0, share[0], 0.01);
    assertEquals(0, share[COLUMNS - 1], 0.01);
    assertTrue(share[FROM] > 0.3 && share[FROM] < 0.9, "smoothed at its edge");
  }
}
