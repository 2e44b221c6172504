package org.isopach.align;

/**
 * How far each frame of a scan was displaced by the eye's motion, in mm to the right and down;
 * frames are counted across the scan.
 *
 * <p>Prior: a frame's shift follows its neighbour's but for jumps, so that differences have a long
 * tail (Student's t with {@value #FREEDOM} degrees of freedom); all shifts are small.
 */
final class FrameShifts {
  private static final double STEP_SD_MM = 0.010;
  private static final double SHIFT_SD_MM = 0.06;
  private static final int FREEDOM = 2;

  private final int frames;
  private final double[] mm;

  FrameShifts(int frames) {
    this(new double[2 * frames]);
  }

  private FrameShifts(double[] mm) {
    this.frames = mm.length / 2;
    this.mm = mm;
  }

  FrameShifts copy() {
    return new FrameShifts(mm.clone());
  }

  int frames() {
    return frames;
  }

  double xMm(int rank) {
    return mm[2 * rank];
  }

  double yMm(int rank) {
    return mm[2 * rank + 1];
  }

  /** Adds the prior to equations in which the shifts' unknowns begin at an index. */
  void addPrior(NormalEquations equations, int first) {
    for (int i = 0; i < mm.length; i++) {
      equations.pull(first + i, mm[i], 1 / (SHIFT_SD_MM * SHIFT_SD_MM));
    }
    for (int k = 1; k < frames; k++) {
      double right = xMm(k) - xMm(k - 1);
      double down = yMm(k) - yMm(k - 1);
      double jump = (right * right + down * down) / (STEP_SD_MM * STEP_SD_MM);
      double weight = (FREEDOM + 2) / (FREEDOM + jump) / (STEP_SD_MM * STEP_SD_MM);
      int i = first + 2 * k;
      equations.tie(i, i - 2, right, weight);
      equations.tie(i + 1, i - 1, down, weight);
    }
  }

  /** Takes the changes found for these unknowns, which begin at an index. */
  void take(double[] changes, int first) {
    for (int i = 0; i < mm.length; i++) {
      mm[i] -= changes[first + i];
    }
  }

  /** Returns the root mean square of all shifts in mm, both ways together. */
  double rootMeanSquareMm() {
    double sum = 0;
    for (double shift : mm) {
      sum += shift * shift;
    }
    return Math.sqrt(sum / frames);
  }
}
