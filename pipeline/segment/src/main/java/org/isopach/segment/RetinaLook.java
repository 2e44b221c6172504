package org.isopach.segment;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * A first look at some frames, without the tissue model: whether they show a retina at all, and the
 * right way up. What nothing was trained to see is better refused by plain rules.
 */
final class RetinaLook {
  private static final double SIDE_MICROMETRES = 50;
  private static final double BAND_MICROMETRES = 75;
  private static final int LOOKS = 9;

  private final float score;
  private final float brighterInFront;
  private final float upsideDownLead;
  private final List<int[]> innerPaths;

  private RetinaLook(
      float score, float brighterInFront, float upsideDownLead, List<int[]> innerPaths) {
    this.innerPaths = List.copyOf(innerPaths);
    this.score = score;
    this.brighterInFront = brighterInFront;
    this.upsideDownLead = upsideDownLead;
  }

  /** Looks at up to nine usable frames, evenly spread. */
  static RetinaLook at(LoadedScan loaded) {
    int[] usable = loaded.usableFrames();
    int looks = Math.min(LOOKS, usable.length);
    float[] scores = new float[looks];
    List<int[]> paths = new ArrayList<>();
    double front = 0;
    double lead = 0;
    CoarseSearch search = new CoarseSearch(loaded.grid());
    for (int i = 0; i < looks; i++) {
      int frame = usable[(int) ((i + 0.5) * usable.length / looks)];
      CoarseFrame coarse = loaded.coarse(frame, false);
      RetinaEvidence evidence = new RetinaEvidence(coarse);
      int[] outer = search.outer(evidence);
      int[] inner = search.inner(evidence, outer);
      paths.add(inner);
      scores[i] = score(evidence, inner, outer);
      front += brighterInFront(coarse, outer) / looks;
      RetinaEvidence flipped = new RetinaEvidence(loaded.coarse(frame, true));
      int[] flippedOuter = search.outer(flipped);
      float turned = score(flipped, search.inner(flipped, flippedOuter), flippedOuter);
      lead += (turned - scores[i]) / looks;
    }
    Arrays.sort(scores);
    return new RetinaLook(scores[looks / 2], (float) front, (float) lead, paths);
  }

  private static float score(RetinaEvidence evidence, int[] inner, int[] outer) {
    int rows = evidence.inner().length / inner.length;
    double sum = 0;
    for (int c = 0; c < inner.length; c++) {
      sum += Math.max(0, evidence.inner()[c * rows + inner[c]]);
      sum += Math.max(0, evidence.outer()[c * rows + outer[c]]);
    }
    return (float) (sum / inner.length);
  }

  private static double brighterInFront(CoarseFrame coarse, int[] outer) {
    CoarseGrid grid = coarse.grid();
    int skip = 1;
    int run = grid.rowsIn(SIDE_MICROMETRES);
    int band = grid.rowsIn(BAND_MICROMETRES);
    float[] sums = new float[grid.rows() + 1 + band + skip + run];
    double difference = 0;
    int n = 0;
    for (int c = 0; c < grid.columns(); c++) {
      int r = outer[c];
      if (r < run + skip) {
        continue;
      }
      coarse.sums(c, sums);
      double front = sums[r - skip] - sums[r - skip - run];
      double behind = sums[r + band + skip + run] - sums[r + band + skip];
      difference += (front - behind) / run;
      n++;
    }
    return n == 0 ? 0 : difference / n;
  }

  /** Returns the median over frames of the mean evidence along both paths; about 1 when clear. */
  float score() {
    return score;
  }

  /**
   * Returns how much brighter the tissue in front of the outer bands is than that behind them. In
   * front lies the outer nuclear layer, which is darker than the choroid behind; a clearly positive
   * value means the choroid is in front.
   */
  float brighterInFront() {
    return brighterInFront;
  }

  /** Returns the mean evidence with the frames upside down less that as they are. */
  float upsideDownLead() {
    return upsideDownLead;
  }

  /** Returns the inner paths of the frames looked at, in coarse rows. */
  List<int[]> innerPaths() {
    return innerPaths;
  }
}
