package org.isopach.segment;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.TissueMap;

/**
 * The boundaries of a whole scan on the tissue maps. Every frame is searched alone; one that does
 * not agree with its neighbours is searched again, drawn to where they expect the boundaries; the
 * pull fades with the distance of the frames, so that far neighbours say little.
 */
final class LayerVolume {
  private static final float PULL = 0.05f;
  private static final double FULL_PULL_SPACING_MM = 0.06;
  private static final int ROUNDS = 2;

  private final TissueMap[] maps;
  private final LayerPaths[] paths;
  private final SearchRules rules;
  private final double rowMicrometres;

  private LayerVolume(TissueMap[] maps, SearchRules rules, double rowMicrometres) {
    this.maps = maps;
    this.rules = rules;
    this.rowMicrometres = rowMicrometres;
    this.paths = new LayerPaths[maps.length];
  }

  /**
   * Searches all frames that have a map.
   *
   * @param maps one for each frame, null for frames that show nothing
   * @param rules how far paths may move
   */
  static LayerVolume search(TissueMap[] maps, SearchRules rules, LoadedScan loaded, FrameLoop loop)
      throws InterruptedException {
    LayerVolume volume = new LayerVolume(maps, rules, loaded.tissueRowMicrometres());
    loop.run(
        maps.length,
        () -> {
          LayerSearch search = new LayerSearch(rules, volume.rowMicrometres);
          return frame -> {
            if (maps[frame] != null) {
              volume.paths[frame] = search.search(maps[frame]);
            }
          };
        });
    float pull = pull(loaded);
    for (int round = 0; round < ROUNDS && pull > 0 && maps.length > 2; round++) {
      volume.relax(pull, loop);
    }
    return volume;
  }

  private static float pull(LoadedScan loaded) {
    double spacing = loaded.scan().path().map(ScanPath::frameSpacingMm).orElse(Double.NaN);
    if (!(spacing > 0)) {
      return 0;
    }
    double near = FULL_PULL_SPACING_MM / spacing;
    return (float) (PULL * Math.min(1, near * near));
  }

  private void relax(float pull, FrameLoop loop) throws InterruptedException {
    LayerPaths[] before = paths.clone();
    loop.run(
        maps.length,
        () -> {
          LayerSearch search = new LayerSearch(rules, rowMicrometres);
          return frame -> {
            if (maps[frame] != null) {
              LayerExpectation expected = expectation(before, frame);
              if (expected != null && !expected.agreesWith(before[frame])) {
                paths[frame] = search.search(maps[frame], before[frame], expected, pull);
              }
            }
          };
        });
  }

  /** Returns what the frames before and behind say, or null when there are none. */
  private static LayerExpectation expectation(LayerPaths[] paths, int frame) {
    List<LayerPaths> neighbours = new ArrayList<>();
    for (int g : new int[] {frame - 1, frame + 1}) {
      if (g >= 0 && g < paths.length && paths[g] != null) {
        neighbours.add(paths[g]);
      }
    }
    if (neighbours.isEmpty()) {
      return null;
    }
    LayerExpectation expectation = new LayerExpectation();
    float[] moves = new float[neighbours.size()];
    for (int i = 0; i < moves.length; i++) {
      moves[i] = axialMove(neighbours.get(i), paths[frame]);
    }
    for (Boundary boundary : Boundary.values()) {
      float[] mean = new float[paths[frame].places(boundary).length];
      for (int i = 0; i < moves.length; i++) {
        float[] places = neighbours.get(i).places(boundary);
        for (int c = 0; c < mean.length; c++) {
          mean[c] += (places[c] + moves[i]) / moves.length;
        }
      }
      expectation.set(boundary, mean);
    }
    return expectation;
  }

  private static float axialMove(LayerPaths from, LayerPaths to) {
    float[] a = from.places(Boundary.BM);
    float[] b = to.places(Boundary.BM);
    float[] c = from.places(Boundary.ILM);
    float[] d = to.places(Boundary.ILM);
    float[] moves = new float[2 * a.length];
    for (int i = 0; i < a.length; i++) {
      moves[2 * i] = b[i] - a[i];
      moves[2 * i + 1] = d[i] - c[i];
    }
    Arrays.sort(moves);
    return moves[moves.length / 2];
  }

  /** Returns the paths of a frame, or null when the frame shows nothing. */
  LayerPaths paths(int frame) {
    return paths[frame];
  }

  /** Returns the map of a frame, or null when the frame shows nothing. */
  TissueMap map(int frame) {
    return maps[frame];
  }
}
