package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import org.isopach.analysis.layer.Boundary;
import org.junit.jupiter.api.Test;

/** The table the program ships with. How well it is calibrated is measured by bin/accuracy. */
class ConfidenceScaleTest {
  private static final ConfidenceScale SCALE = ConfidenceScale.shipped();

  /** Of six cells around a boundary at most half are misplaced; below a tenth hardly any is. */
  private static final double LEAST_DOUBT = 0.1;

  private static final double MOST_DOUBT = 3;

  private static List<String[]> table() throws IOException {
    try (BufferedReader in =
        new BufferedReader(
            new InputStreamReader(
                ConfidenceScale.class.getResourceAsStream("confidence.csv"),
                StandardCharsets.UTF_8))) {
      return in.lines().filter(line -> !line.startsWith("#")).map(l -> l.split(",", -1)).toList();
    }
  }

  @Test
  void tableHasEveryBoundaryOnceAndEveryTerm() throws IOException {
    List<String[]> table = table();
    assertEquals("boundary,one,doubt,log-doubt,move,bend,contrast", String.join(",", table.get(0)));
    assertEquals(
        Arrays.stream(Boundary.values()).map(Boundary::code).toList(),
        table.stream().skip(1).map(cells -> cells[0]).toList());
    for (String[] cells : table) {
      assertEquals(1 + Evidence.TERMS, cells.length, String.join(",", cells));
    }
  }

  @Test
  void confidenceIsFromNoughtToOneWhateverTheEvidence() {
    double[] some = {0, 1e-6, 0.3, 3, 6, 1e3};
    for (Boundary boundary : Boundary.values()) {
      for (double doubt : some) {
        for (double move : some) {
          for (double bend : some) {
            for (double contrast : new double[] {0, 1, 4, 1e6}) {
              double confidence =
                  SCALE.confidence(new Evidence(boundary, doubt, move, bend, contrast));
              assertTrue(confidence >= 0 && confidence <= 1, boundary + " " + confidence);
            }
          }
        }
      }
    }
  }

  @Test
  void confidenceFallsAsDoubtGrows() {
    for (Boundary boundary : Boundary.values()) {
      double before = 1;
      for (double doubt = LEAST_DOUBT; doubt <= MOST_DOUBT; doubt += 0.05) {
        double confidence = SCALE.confidence(new Evidence(boundary, doubt, 2, 2, 4));
        assertTrue(confidence <= before + 1e-12, boundary + " rises at a doubt of " + doubt);
        before = confidence;
      }
    }
  }

  /** Half of the cells misplaced must cost at least nine tenths of the odds of being right. */
  @Test
  void muchDoubtIsWorthMuchLess() {
    for (Boundary boundary : Boundary.values()) {
      double clear = SCALE.confidence(new Evidence(boundary, LEAST_DOUBT, 2, 2, 4));
      double doubtful = SCALE.confidence(new Evidence(boundary, MOST_DOUBT, 2, 2, 4));
      double odds = clear / (1 - clear);
      double doubtfulOdds = doubtful / (1 - doubtful);
      assertTrue(doubtfulOdds < odds / 10, boundary + ": " + clear + " and " + doubtful);
    }
  }
}
