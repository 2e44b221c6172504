package org.isopach.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * One eye, stored in the many ways the standard allows, has one table of sectors. What is the same
 * scan must agree to the rounding of coordinates; another pattern over the same eye, to what
 * sampling leaves open.
 */
class StoredWaysTest {
  /** Both are rounded, coordinates to 32 bits or ten decimals, means to 0.001 um. */
  private static final double SAME_SCAN_UM = 0.05;

  /** Turning the order of frames round may turn ties of the path search round. */
  private static final double TURNED_SCAN_UM = 0.05;

  /** The tissue model was not made symmetrical: from the other end it sees another picture. */
  private static final double OTHER_END_UM = 0.2;

  /** Nineteen frames 0.36 mm apart sample the pit at other places when they run the other way. */
  private static final double OTHER_RASTER_UM = 3.0;

  private static final double TRUTH_UM = 2.5;

  @TempDir static Path shared;
  @TempDir Path folder;

  private static StoredScan scan;
  private static List<Double> expected;

  @BeforeAll
  static void measurePlainScan() throws IOException {
    scan = StoredScan.of(ScanPlan.raster(new ScanSize(19, 128, 400), 3.87, 6.4, 6.4, 0));
    Path plain = Files.createDirectory(shared.resolve("plain"));
    scan.copy().write(plain, "scan");
    StoredScan.writeLocalizer(plain.resolve("fundus"), true);
    expected = means(plain, shared.resolve("run"));
    assertEquals(10, expected.size());
  }

  @Test
  void byPlanePositionOnly() throws IOException {
    agrees(scan.copy().inPatientSpace(), SAME_SCAN_UM);
  }

  @Test
  void withoutTheFundusImage() throws IOException {
    agrees(scan.copy(), SAME_SCAN_UM);
  }

  @Test
  void withAFundusImageOfUnknownScale() throws IOException {
    StoredScan.writeLocalizer(folder.resolve("fundus"), false);
    agrees(scan.copy(), SAME_SCAN_UM);
  }

  @Test
  void lastFrameFirst() throws IOException {
    agrees(onFundus(scan.lastFrameFirst()), TURNED_SCAN_UM);
  }

  @Test
  void fromTheOtherEnd() throws IOException {
    agrees(onFundus(scan.fromTheOtherEnd()), OTHER_END_UM);
    agrees(scan.fromTheOtherEnd().inPatientSpace(), OTHER_END_UM);
  }

  @Test
  void asTheOtherEyesMirrorImage() throws IOException {
    agrees(onFundus(scan.mirrored()), OTHER_END_UM);
  }

  @Test
  void inverted() throws IOException {
    agrees(onFundus(scan.copy().inverted()), 0);
  }

  @Test
  void inMoreBits() throws IOException {
    agrees(onFundus(scan.copy().bits(12, false)), SAME_SCAN_UM);
    agrees(onFundus(scan.copy().bits(16, false)), SAME_SCAN_UM);
    agrees(onFundus(scan.copy().bits(16, true)), SAME_SCAN_UM);
  }

  @Test
  void inFramesThatRunDownwards() throws IOException {
    ScanSize size = new ScanSize(19, 128, 400);
    agrees(onFundus(StoredScan.of(ScanPlan.raster(size, 3.87, 6.4, 6.4, 90))), OTHER_RASTER_UM);
  }

  @Test
  void radialFramesAgreeWithTheTruth() throws IOException {
    ScanPlan plan = ScanPlan.radial(new ScanSize(24, 128, 400), 3.87, 6.4);
    onFundus(StoredScan.of(plan)).write(folder, "scan");
    List<Double> actual = means(folder, folder.resolve("run"));
    List<Double> truth =
        List.copyOf(
            PhantomScan.of(PhantomParameters.meanEye(Laterality.RIGHT), plan)
                .truth()
                .sectorMeansUm(Layer.ILM_BM)
                .values());
    assertEquals(9, truth.size());
    for (int i = 0; i < truth.size(); i++) {
      assertEquals(truth.get(i), actual.get(i), TRUTH_UM, "sector " + i);
    }
  }

  private StoredScan onFundus(StoredScan stored) throws IOException {
    StoredScan.writeLocalizer(folder.resolve("fundus"), true);
    return stored;
  }

  private void agrees(StoredScan stored, double toleranceUm) throws IOException {
    stored.write(folder, "scan");
    List<Double> actual = means(folder, folder.resolve("run"));
    double worst = 0;
    for (int i = 0; i < expected.size(); i++) {
      worst = Math.max(worst, Math.abs(expected.get(i) - actual.get(i)));
    }
    assertTrue(worst <= toleranceUm, worst + " um: " + actual + " for " + expected);
  }

  private static List<Double> means(Path input, Path run) throws IOException {
    Call call =
        Call.isopach(
            "measure",
            input,
            "--out",
            run,
            "--layer",
            "ILM-BM",
            "--skip",
            "pictures,objects,boundaries,reports");
    assertEquals(0, call.code(), call.err());
    return Folders.rows(run.resolve("sectors.csv")).stream()
        .map(row -> Double.valueOf(row.get(9)))
        .toList();
  }
}
