package org.isopach.cli.accuracy.nerve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.isopach.cli.page.Markdown;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.report.normal.ReferenceTableFile;
import org.junit.jupiter.api.Test;

class StudyArithmeticTest {
  /** Gaussian noise must be covered as promised: that is theory, not a finding. */
  @Test
  void gaussianNoiseIsCovered() {
    SplittableRandom random = new SplittableRandom(1);
    double share = TrendPart.covered(1.3, random::nextGaussian).value();
    assertTrue(share > 0.94 && share < 0.96, "covered " + share);
  }

  @Test
  void evenPercentilesAreEvenAndOthersNot() {
    double[] even = IntStream.range(0, 200).mapToDouble(i -> (i + 0.5) / 2).toArray();
    double[] low = IntStream.range(0, 200).mapToDouble(i -> (i + 0.5) / 2.5).toArray();
    assertTrue(NormalPart.uniform(even) > 0.99);
    assertTrue(NormalPart.uniform(low) < 0.01);
  }

  /** The mean of every shipped row is its group's 50th percentile, and 1.645 SD less the 5th. */
  @Test
  void everyPublishedMeanIsTheMiddle() {
    Markdown page = new Markdown();
    NormalTables.addTo(page, ReferenceTableFile.shipped());
    List<String> rows = page.toString().lines().filter(line -> line.startsWith("| ")).toList();
    long middle = rows.stream().filter(line -> line.contains("| 50.00 | 5.00 |")).count();
    assertEquals(ReferenceTableFile.shipped().rows().size(), middle, page.toString());
  }

  @Test
  void tableOfSlopesAppliesWhatIsPublished() {
    Markdown page = new Markdown();
    NormalTables.addTo(page, ReferenceTableFile.shipped());
    // Celebi 2013 (IOVS article 2127832): inferior -0.575 µm per year.
    assertTrue(
        page.toString().contains("| inferior | -0.575 µm/year | -0.575 µm/year | 20 |"),
        page.toString());
  }

  @Test
  void visitsKeepTheEyeAndMoveTheScan() {
    PhantomParameters first = NerveVisits.of(7, 0, Aim.TRACKED, head -> head);
    PhantomParameters second = NerveVisits.of(7, 1, Aim.TRACKED, head -> head);
    assertEquals(first.eye(), second.eye());
    assertEquals(first.nerve(), second.nerve());
    assertTrue(first.scanSeed() != second.scanSeed());
    assertTrue(!first.placement().equals(second.placement()));
  }
}
