package org.isopach.segment;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.fixtures.phantom.PhantomParameters;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.fixtures.phantom.ScanPlan;
import org.junit.jupiter.api.Test;

class ClosedFramesTest {
  private static final int ASCANS = 48;
  private static final int DEPTHS = 10;

  private final OctScan scan =
      Scans.withFrames(
          PhantomScan.of(
                  PhantomParameters.draw(1),
                  ScanPlan.circle(new ScanSize(2, ASCANS, DEPTHS), 3.87, 3.46))
              .scan(),
          (frame, into) -> {
            for (int i = 0; i < into.length; i++) {
              into[i] = 1000 * frame + 100 * (i / ASCANS) + i % ASCANS;
            }
          });

  @Test
  void otherEndIsReadBeforeTheFirstAndBehindTheLastAscan() throws FrameReadException {
    OctScan wide = ClosedFrames.extended(scan);
    int spare = ClosedFrames.spare(scan);
    assertEquals(4, spare);
    assertEquals(ASCANS + 8, wide.size().ascans());
    float[] frame = new float[wide.size().framePixels()];
    wide.frames().read(1, frame);
    int row = 3 * wide.size().ascans();
    assertEquals(1344, frame[row], 0f);
    assertEquals(1347, frame[row + 3], 0f);
    assertEquals(1300, frame[row + 4], 0f);
    assertEquals(1347, frame[row + 51], 0f);
    assertEquals(1300, frame[row + 52], 0f);
    assertEquals(1303, frame[row + 55], 0f);
    assertEquals(
        scan.path().orElseThrow().point(1, ASCANS - 1),
        wide.path().orElseThrow().point(1, spare - 1));
    assertEquals(
        scan.path().orElseThrow().point(1, 0), wide.path().orElseThrow().point(1, spare + ASCANS));
  }

  @Test
  void whatWasAddedIsCutOffAgain() {
    int wide = ASCANS + 2 * ClosedFrames.spare(scan);
    float[] depth = new float[2 * wide];
    float[] confidence = new float[2 * wide];
    for (int i = 0; i < depth.length; i++) {
      depth[i] = i % wide == 7 ? Float.NaN : i;
      confidence[i] = i % wide == 7 ? 0 : i / 1000f;
    }
    Map<Boundary, BoundarySurface> surfaces = new EnumMap<>(Boundary.class);
    surfaces.put(
        Boundary.ILM, new BoundarySurface(2, wide, depth, confidence, new byte[depth.length]));
    BoundarySurface narrow =
        ClosedFrames.cropped(new BoundarySet(surfaces), scan).surface(Boundary.ILM).orElseThrow();
    assertEquals(ASCANS, narrow.ascans());
    assertEquals(4, narrow.depthPx(0, 0), 0f);
    assertEquals(Float.NaN, narrow.depthPx(0, 3), 0f);
    assertEquals(wide + 51, narrow.depthPx(1, 47), 0f);
    assertEquals((wide + 51) / 1000f, narrow.confidence(1, 47), 0f);
  }
}
