package org.isopach.segment;

import java.util.Arrays;

/**
 * Tells A-scans that show a folded image: where the eye comes too near to the instrument, what lies
 * beyond the top of the range appears upside down below it.
 *
 * <p>Frames with bright tissue at their top are searched a second time upside down. Where the
 * surroundings of some A-scans look clearly more like a retina upside down than upright, the frame
 * is folded, and every A-scan counts that does not look clearly upright; all do when that is more
 * than a third of them.
 */
final class MirrorImage {
  private static final float TISSUE = 0.25f;
  private static final double EDGE_MICROMETRES = 60;
  private static final double TOUCHING_RUN = 0.02;
  private static final double LEAST_TOUCHING = 0.03;
  private static final double SURROUNDINGS = 0.06;
  private static final float FOLDED = 0.10f;
  private static final float UPRIGHT = -0.10f;
  private static final double LEAST_FOLDED = 0.03;
  private static final double MOST_FOLDED = 1.0 / 3;

  private final LoadedScan loaded;
  private final CoarseSearch search;

  MirrorImage(LoadedScan loaded) {
    this.loaded = loaded;
    this.search = new CoarseSearch(loaded.grid());
  }

  /** Returns for each A-scan of a usable frame whether it shows a folded image. */
  boolean[] folded(int frame) {
    boolean[] folded = new boolean[loaded.scan().size().ascans()];
    if (!touches(frame, folded.length)) {
      return folded;
    }
    float[] lead = lead(frame);
    int clear = 0;
    for (float value : lead) {
      clear += value >= FOLDED ? 1 : 0;
    }
    if (clear < LEAST_FOLDED * lead.length) {
      return folded;
    }
    int count = 0;
    for (int a = 0; a < folded.length; a++) {
      folded[a] = lead[(int) Math.round(loaded.grid().column(a))] > UPRIGHT;
      count += folded[a] ? 1 : 0;
    }
    if (count > MOST_FOLDED * folded.length) {
      Arrays.fill(folded, true);
    }
    return folded;
  }

  /** Returns for each column how much more its surroundings look like a retina upside down. */
  float[] lead(int frame) {
    float[] upright = evidence(new RetinaEvidence(loaded.coarse(frame, false)));
    float[] flipped = evidence(new RetinaEvidence(loaded.coarse(frame, true)));
    float[] lead = new float[upright.length];
    for (int c = 0; c < lead.length; c++) {
      lead[c] = flipped[c] - upright[c];
    }
    return LineSmoother.smooth(lead, Math.max(1, SURROUNDINGS * lead.length));
  }

  /** Whether tissue touches the top over a run of the frame, not here and there as noise does. */
  private boolean touches(int frame, int ascans) {
    EdgeTissue tissue = new EdgeTissue(loaded, frame, EDGE_MICROMETRES);
    float[] top = new float[ascans];
    for (int a = 0; a < ascans; a++) {
      top[a] = tissue.atTop(a);
    }
    int touching = 0;
    for (float value : LineSmoother.smooth(top, Math.max(1, TOUCHING_RUN * ascans))) {
      touching += value >= TISSUE ? 1 : 0;
    }
    return touching >= LEAST_TOUCHING * ascans;
  }

  /** Returns for each column the evidence along the best paths through a frame. */
  private float[] evidence(RetinaEvidence evidence) {
    int rows = loaded.grid().rows();
    int[] outer = search.outer(evidence);
    int[] inner = search.inner(evidence, outer);
    float[] sums = new float[outer.length];
    for (int c = 0; c < sums.length; c++) {
      sums[c] =
          Math.max(0, evidence.inner()[c * rows + inner[c]])
              + Math.max(0, evidence.outer()[c * rows + outer[c]]);
    }
    return sums;
  }
}
