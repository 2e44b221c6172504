package org.isopach.segment;

import org.isopach.analysis.geometry.ScanPath;

/**
 * The first search over a whole scan: each frame alone, then every frame again, drawn towards what
 * its neighbours found.
 */
final class CoarseVolume {
  private static final int NEIGHBOUR_REACH = 2;
  private static final float FULL_PULL = 0.35f;
  private static final double FULL_PULL_SPACING_MM = 0.08;
  private static final double AGREEMENT_MICROMETRES = 25;
  private static final double MOST_COLUMNS_APART = 0.02;
  private static final double SIDE_MICROMETRES = 50;
  private static final double BAND_MICROMETRES = 75;
  private static final int LOOKS_FOR_DIRECTION = 5;

  private final LoadedScan loaded;
  private final CoarseSurface inner;
  private final CoarseSurface outer;
  private final float[] scores;

  private CoarseVolume(LoadedScan loaded) {
    this.loaded = loaded;
    this.inner = new CoarseSurface(loaded.frames());
    this.outer = new CoarseSurface(loaded.frames());
    this.scores = new float[loaded.frames()];
  }

  /** Searches all usable frames. */
  static CoarseVolume search(LoadedScan loaded, FrameLoop loop) throws InterruptedException {
    CoarseVolume first = new CoarseVolume(loaded);
    RetinaEvidence[] evidence = new RetinaEvidence[loaded.frames()];
    loop.run(
        loaded.frames(),
        () -> {
          CoarseSearch search = new CoarseSearch(loaded.grid());
          return frame -> {
            if (loaded.usable(frame)) {
              evidence[frame] = new RetinaEvidence(loaded.coarse(frame, false));
              first.find(frame, evidence[frame], search);
            }
          };
        });
    float pull = first.pull();
    if (loaded.frames() < 3 || pull <= 0) {
      return first;
    }
    CoarseVolume second = new CoarseVolume(loaded);
    loop.run(
        loaded.frames(),
        () -> {
          CoarseSearch search = new CoarseSearch(loaded.grid());
          return frame -> {
            if (loaded.usable(frame)) {
              second.findAgain(frame, evidence[frame], search, first, pull);
              evidence[frame] = null;
            }
          };
        });
    return second;
  }

  private void find(int frame, RetinaEvidence evidence, CoarseSearch search) {
    float[] nothing = new float[0];
    int[] outerPath = search.outer(evidence, nothing, 0);
    int[] innerPath = search.inner(evidence, outerPath, nothing, 0);
    outer.set(frame, outerPath);
    inner.set(frame, innerPath);
    scores[frame] = score(evidence, innerPath, outerPath);
  }

  /** Keeps a frame that agrees with its neighbours; searches any other again, drawn to them. */
  private void findAgain(
      int frame, RetinaEvidence evidence, CoarseSearch search, CoarseVolume before, float pull) {
    int[] outerPath = before.outer.path(frame);
    int[] innerPath = before.inner.path(frame);
    float[] expectedOuter = before.outer.expectedFromNeighbours(frame, NEIGHBOUR_REACH);
    float[] expectedInner = before.inner.expectedFromNeighbours(frame, NEIGHBOUR_REACH);
    boolean outerAgrees = agrees(outerPath, expectedOuter);
    if (!outerAgrees) {
      outerPath = search.outer(evidence, expectedOuter, pull);
    }
    if (!outerAgrees || !agrees(innerPath, expectedInner)) {
      innerPath = search.inner(evidence, outerPath, expectedInner, pull);
    }
    outer.set(frame, outerPath);
    inner.set(frame, innerPath);
    scores[frame] = score(evidence, innerPath, outerPath);
  }

  private boolean agrees(int[] path, float[] expected) {
    double most = AGREEMENT_MICROMETRES / loaded.grid().micrometresPerRow();
    int apart = 0;
    for (int c = 0; c < path.length; c++) {
      apart += Math.abs(path[c] - expected[c]) > most ? 1 : 0;
    }
    return apart <= MOST_COLUMNS_APART * path.length;
  }

  /** The pull of neighbours fades with the distance between frames; 0 where it is not known. */
  private float pull() {
    double spacing = loaded.scan().path().map(ScanPath::frameSpacingMm).orElse(Double.NaN);
    if (!(spacing > 0)) {
      return 0;
    }
    return (float) (FULL_PULL * Math.min(1, FULL_PULL_SPACING_MM / spacing));
  }

  private float score(RetinaEvidence evidence, int[] innerPath, int[] outerPath) {
    int rows = loaded.grid().rows();
    double sum = 0;
    for (int c = 0; c < innerPath.length; c++) {
      sum += Math.max(0, evidence.inner()[c * rows + innerPath[c]]);
      sum += Math.max(0, evidence.outer()[c * rows + outerPath[c]]);
    }
    return (float) (sum / innerPath.length);
  }

  /** Returns the path of the inner limiting membrane. */
  CoarseSurface inner() {
    return inner;
  }

  /** Returns the path of the outer bands' inner edge. */
  CoarseSurface outer() {
    return outer;
  }

  /** Returns the mean evidence along both paths of a frame; about 1 for a clear retina. */
  float score(int frame) {
    return scores[frame];
  }

  /**
   * Returns how much brighter the tissue in front of the outer bands is than that behind them, on
   * the mean of some frames. In front lies the outer nuclear layer, which is darker than the
   * choroid behind; a clearly positive value means the choroid is in front.
   */
  float brighterInFront() {
    CoarseGrid grid = loaded.grid();
    int skip = 1;
    int run = grid.rowsIn(SIDE_MICROMETRES);
    int band = grid.rowsIn(BAND_MICROMETRES);
    float[] sums = new float[grid.rows() + 1 + band + skip + run];
    int[] usable = loaded.usableFrames();
    int looks = Math.min(LOOKS_FOR_DIRECTION, usable.length);
    double difference = 0;
    int n = 0;
    for (int i = 0; i < looks; i++) {
      int frame = usable[(int) ((i + 0.5) * usable.length / looks)];
      CoarseFrame coarse = loaded.coarse(frame, false);
      for (int c = 0; c < grid.columns(); c++) {
        int r = outer.path(frame)[c];
        if (r < run + skip) {
          continue;
        }
        coarse.sums(c, sums);
        double front = sums[r - skip] - sums[r - skip - run];
        double behind = sums[r + band + skip + run] - sums[r + band + skip];
        difference += (front - behind) / run;
        n++;
      }
    }
    return n == 0 ? 0 : (float) (difference / n);
  }

  /**
   * Returns how much better some frames look the wrong way up: the mean evidence upside down less
   * the mean evidence as it is.
   */
  float upsideDownLead() {
    int[] usable = loaded.usableFrames();
    int looks = Math.min(LOOKS_FOR_DIRECTION, usable.length);
    CoarseSearch search = new CoarseSearch(loaded.grid());
    double lead = 0;
    for (int i = 0; i < looks; i++) {
      int frame = usable[(int) ((i + 0.5) * usable.length / looks)];
      RetinaEvidence flipped = new RetinaEvidence(loaded.coarse(frame, true));
      int[] outerPath = search.outer(flipped, new float[0], 0);
      int[] innerPath = search.inner(flipped, outerPath, new float[0], 0);
      lead += score(flipped, innerPath, outerPath) - scores[frame];
    }
    return looks == 0 ? 0 : (float) (lead / looks);
  }
}
