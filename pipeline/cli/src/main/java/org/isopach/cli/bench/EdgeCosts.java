package org.isopach.cli.bench;

import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;

/**
 * A plain picture of costs at full resolution for comparing searches: a cell is the cheaper, from 2
 * down to 1, the more the grey grows downwards over a few pixels.
 */
final class EdgeCosts {
  private static final int WINDOW = 4;

  private EdgeCosts() {}

  /** Returns the costs of a frame, index {@code ascan * depths + depth}. */
  static float[] of(OctScan scan, int frame) throws FrameReadException {
    int ascans = scan.size().ascans();
    int depths = scan.size().depths();
    float[] picture = new float[scan.size().framePixels()];
    scan.frames().read(frame, picture);
    float[] steps = new float[picture.length];
    float most = 0;
    for (int a = 0; a < ascans; a++) {
      for (int d = WINDOW; d < depths - WINDOW; d++) {
        float step = 0;
        for (int k = 0; k < WINDOW; k++) {
          step += picture[(d + k) * ascans + a] - picture[(d - 1 - k) * ascans + a];
        }
        steps[a * depths + d] = Math.max(0, step);
        most = Math.max(most, step);
      }
    }
    for (int i = 0; i < steps.length; i++) {
      steps[i] = 2 - (most > 0 ? steps[i] / most : 0);
    }
    return steps;
  }
}
