package org.isopach.segment;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.stream.IntStream;
import org.isopach.analysis.scan.FrameReadException;
import org.isopach.analysis.scan.OctScan;
import org.isopach.segment.tissue.TissueGrid;
import org.isopach.segment.tissue.TissueMap;
import org.isopach.segment.tissue.TissueModel;
import org.isopach.segment.tissue.TissuePicture;

/**
 * A scan's frames, decoded once: kept in full, averaged on the coarse grid, with the levels of
 * each. Frames that could not be read, or that show next to nothing (a blink), are left out.
 */
final class LoadedScan {
  private static final float DARK_FRAME = 0.35f;

  /** Contrast that rounding alone can give to averages of whole greys. */
  private static final double LEAST_GREY_STEP = 0.05;

  private final OctScan scan;
  private final TissueModel model;
  private final CoarseGrid grid;
  private final FrameStore store;
  private final float[][] averages;
  private final GreyLevels[] levels;
  private final TissueGrid tissueGrid;
  private final TissueMap[] tissues;
  private final FrameConditioner.Margins[] margins;
  private final double[] saturated;
  private final boolean[] usable;
  private final Map<Integer, String> unreadable = new ConcurrentSkipListMap<>();
  private boolean constant;

  private LoadedScan(OctScan scan, TissueModel model) {
    int frames = scan.size().frames();
    this.scan = scan;
    this.model = model;
    this.grid = CoarseGrid.of(scan.size(), scan.axial());
    this.store = new FrameStore(frames, scan.size().framePixels(), scan.grey());
    this.averages = new float[frames][];
    this.levels = new GreyLevels[frames];
    this.tissueGrid =
        TissueGrid.of(scan.size(), scan.axial(), RetinaSegmenter.ascanMicrometres(scan));
    this.tissues = new TissueMap[frames];
    this.margins = new FrameConditioner.Margins[frames];
    this.saturated = new double[frames];
    this.usable = new boolean[frames];
  }

  /** Reads all frames of a scan and tells its tissues apart as in the macula. */
  static LoadedScan read(OctScan scan, FrameLoop loop) throws InterruptedException {
    return read(scan, Learnt.macula().model(), loop);
  }

  /** Reads all frames of a scan and tells its tissues apart by the given model. */
  static LoadedScan read(OctScan scan, TissueModel model, FrameLoop loop)
      throws InterruptedException {
    LoadedScan loaded = new LoadedScan(scan, model);
    loop.run(scan.size().frames(), loaded::reader);
    loaded.judgeFrames();
    return loaded;
  }

  private FrameLoop.Work reader() {
    float[] picture = new float[scan.size().framePixels()];
    FrameConditioner conditioner =
        new FrameConditioner(scan.size().ascans(), scan.size().depths(), scan.grey());
    SaturationCount saturation =
        new SaturationCount(scan.size().ascans(), scan.size().depths(), scan.grey());
    return frame -> load(frame, picture, conditioner, saturation);
  }

  private void load(
      int frame, float[] picture, FrameConditioner conditioner, SaturationCount saturation) {
    try {
      scan.frames().read(frame, picture);
    } catch (FrameReadException e) {
      unreadable.put(frame, String.valueOf(e.getMessage()));
      return;
    }
    saturation.look(picture);
    margins[frame] = conditioner.clean(picture);
    saturated[frame] = saturation.share(picture, margins[frame]);
    store.put(frame, picture);
    averages[frame] =
        CoarseFrames.averages(picture, scan.size().ascans(), scan.size().depths(), grid);
    levels[frame] = GreyLevels.of(averages[frame], picture, scan.size().ascans());
    tissues[frame] =
        model.look(
            TissuePicture.of(picture, scan.size().ascans(), scan.size().depths(), tissueGrid));
  }

  private void judgeFrames() {
    List<Float> contrasts = new ArrayList<>();
    for (GreyLevels level : levels) {
      if (level != null) {
        contrasts.add(level.contrast());
      }
    }
    if (contrasts.isEmpty()) {
      return;
    }
    Collections.sort(contrasts);
    float upper = contrasts.get((int) (0.75 * (contrasts.size() - 1)));
    constant = upper <= LEAST_GREY_STEP;
    for (int f = 0; f < usable.length; f++) {
      usable[f] = !constant && levels[f] != null && levels[f].contrast() >= DARK_FRAME * upper;
    }
  }

  OctScan scan() {
    return scan;
  }

  CoarseGrid grid() {
    return grid;
  }

  int frames() {
    return usable.length;
  }

  /** Returns whether no frame has any contrast. */
  boolean constant() {
    return constant;
  }

  /** Returns whether a frame was read and is not dark. */
  boolean usable(int frame) {
    return usable[frame];
  }

  /** Returns the usable frames in order. */
  int[] usableFrames() {
    int[] frames = new int[usable.length];
    int n = 0;
    for (int f = 0; f < usable.length; f++) {
      if (usable[f]) {
        frames[n++] = f;
      }
    }
    return Arrays.copyOf(frames, n);
  }

  /** Returns the frames that could not be read, with what went wrong, in order. */
  Map<Integer, String> unreadable() {
    return new TreeMap<>(unreadable);
  }

  /** Returns whether a frame was read, dark or not. */
  boolean readable(int frame) {
    return levels[frame] != null;
  }

  /** Returns the frames that were read, in order. */
  int[] readableFrames() {
    return IntStream.range(0, levels.length).filter(this::readable).toArray();
  }

  /** Returns whether any frame was read. */
  boolean anyReadable() {
    return readableFrames().length > 0;
  }

  /** Returns the share of saturated pixels of a frame that was read. */
  double saturated(int frame) {
    return saturated[frame];
  }

  /** Returns what a frame that was read looks like as a whole. */
  PictureCharacter character(int frame) {
    return PictureCharacter.of(averages[frame], grid.columns());
  }

  /** Returns the contrast of a frame in units of its noise. */
  double contrastToNoise(int frame) {
    return levels[frame].contrastToNoise();
  }

  /** Returns the median over usable frames of the contrast in units of the noise. */
  double contrastToNoise() {
    return Arrays.stream(usableFrames())
        .mapToDouble(frame -> levels[frame].contrastToNoise())
        .sorted()
        .skip(usableFrames().length / 2)
        .findFirst()
        .orElse(0);
  }

  /** Returns a frame on the coarse grid. */
  CoarseFrame coarse(int frame, boolean flipped) {
    return CoarseFrames.scaled(averages[frame], levels[frame], grid, flipped);
  }

  /** Returns the depth in µm of a row of the tissue maps. */
  double tissueRowMicrometres() {
    return tissueGrid.depthsPerCell() * scan.axial().micrometresPerPixel();
  }

  /** Returns the tissues of every frame, null for frames that are not usable. */
  TissueMap[] tissues() {
    TissueMap[] maps = tissues.clone();
    for (int f = 0; f < maps.length; f++) {
      maps[f] = usable[f] ? maps[f] : null;
    }
    return maps;
  }

  /** Returns a frame at full resolution. */
  FrameView view(int frame) {
    return new FrameView(store, frame, scan.size().ascans(), scan.size().depths(), levels[frame]);
  }

  /** Returns the margins of a frame. */
  FrameConditioner.Margins margins(int frame) {
    return margins[frame];
  }
}
