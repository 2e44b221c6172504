package org.isopach.align;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.map.FrameNeighbours;
import org.isopach.analysis.map.FramePair;

/** One scan's shadows in the forms that registration looks at. */
final class ShadowPicture {
  private final ScanPath path;
  private final EnFace face;
  private final int[] rankOf;
  private final Map<Fineness, ShadowMap> maps = new HashMap<>();

  ShadowPicture(EnFace face) {
    this.face = face;
    this.path = face.path();
    this.rankOf = ranks(path);
  }

  ScanPath path() {
    return path;
  }

  int frames() {
    return path.frames();
  }

  /** Returns whether the scan's frames can be told to have moved: parallel ones can. */
  boolean isRaster() {
    return path.pattern() == ScanPattern.RASTER;
  }

  /** Returns a frame's place in the order across the scan. */
  int rank(int frame) {
    return rankOf[frame];
  }

  /** Returns the shadows on a lattice at a fineness; kept, since a baseline is asked again. */
  ShadowMap map(Fineness fineness) {
    return maps.computeIfAbsent(fineness, this::draw);
  }

  private ShadowMap draw(Fineness fineness) {
    ShadowMap map = ShadowMap.of(path, face.smoothed(fineness.alongMm()));
    return fineness.bothMm() > 0 ? map.blurred(fineness.bothMm()) : map;
  }

  /** Returns the shadows at the A-scans at a fineness. */
  ShadowSamples samples(Fineness fineness) {
    ShadowSamples samples = new ShadowSamples(path, rankOf, face.smoothed(fineness.alongMm()));
    return fineness.bothMm() > 0 ? samples.from(map(fineness)) : samples;
  }

  /** Returns the frames' ranks on the scan's lattice, with fractions between frames. */
  ShadowMap ranks() {
    double[] values = new double[path.frames() * path.ascans()];
    for (int i = 0; i < values.length; i++) {
      values[i] = rankOf[i / path.ascans()];
    }
    return ShadowMap.of(path, values);
  }

  private static int[] ranks(ScanPath path) {
    int[] rank = new int[path.frames()];
    Arrays.setAll(rank, i -> i);
    if (path.pattern() == ScanPattern.RASTER) {
      int next = 0;
      for (FramePair pair : FrameNeighbours.of(path, f -> true)) {
        rank[pair.first()] = next++;
        rank[pair.second()] = next;
      }
    }
    return rank;
  }

  /**
   * How much a picture is smoothed.
   *
   * @param alongMm standard deviation along each frame
   * @param bothMm standard deviation both ways, on the lattice; 0 for none
   */
  record Fineness(double alongMm, double bothMm) {
    static final Fineness SEARCH = new Fineness(0.06, 0.12);
    static final Fineness RIGID = new Fineness(0.06, 0.10);
    static final Fineness FRAMES = new Fineness(0.05, 0.06);
    static final Fineness FINEST = new Fineness(0.018, 0);
  }
}
