package org.isopach.segment;

/** How much the best path through a frame looks like the outer bands, column by column. */
final class OuterEvidence {
  private static final double SMOOTHED_COLUMNS = 3;

  private final LoadedScan loaded;
  private final CoarseSearch search;

  OuterEvidence(LoadedScan loaded) {
    this.loaded = loaded;
    this.search = new CoarseSearch(loaded.grid());
  }

  /** Returns the evidence for each column of a usable frame; about 1 for a clear retina. */
  float[] along(int frame) {
    RetinaEvidence evidence = new RetinaEvidence(loaded.coarse(frame, false));
    int rows = loaded.grid().rows();
    int[] path = search.outer(evidence);
    float[] along = new float[path.length];
    for (int c = 0; c < along.length; c++) {
      along[c] = evidence.outer()[c * rows + path[c]];
    }
    return LineSmoother.smooth(along, SMOOTHED_COLUMNS);
  }
}
