package org.isopach.job;

import java.util.Comparator;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.region.RegionLabels;

/** Chooses the frames of a scan that are worth a look. */
final class FrameChoice {
  private FrameChoice() {}

  /**
   * Returns frames and why each was chosen, by index: the one nearest to the centre, then those in
   * which regions take up most pixels. All frames, when as many are wanted.
   *
   * @param most number of frames at most
   */
  static SortedMap<Integer, String> of(MeasuredScan scan, int most) {
    SortedMap<Integer, String> chosen = new TreeMap<>();
    if (most == 0) {
      return chosen;
    }
    int middle = nearest(scan);
    chosen.put(
        middle,
        scan.place().isPresent() ? "nearest to the centre of the grid" : "middle of the scan");
    for (int frame : byRegions(scan.labels())) {
      if (chosen.size() < most) {
        chosen.putIfAbsent(frame, "among the largest sections through regions");
      }
    }
    int frames = scan.scan().size().frames();
    for (int f = 0; f < frames && most >= frames; f++) {
      chosen.putIfAbsent(f, "one of all");
    }
    return chosen;
  }

  private static int[] byRegions(RegionLabels labels) {
    int[] pixels = IntStream.range(0, labels.size().frames()).map(f -> pixels(labels, f)).toArray();
    return IntStream.range(0, pixels.length)
        .filter(f -> pixels[f] > 0)
        .boxed()
        .sorted(Comparator.comparing((Integer f) -> -pixels[f]).thenComparing(f -> f))
        .mapToInt(Integer::intValue)
        .toArray();
  }

  private static int pixels(RegionLabels labels, int frame) {
    if (!labels.any(frame)) {
      return 0;
    }
    int count = 0;
    for (byte label : labels.frame(frame)) {
      count += label == 0 ? 0 : 1;
    }
    return count;
  }

  private static int nearest(MeasuredScan scan) {
    int frames = scan.scan().size().frames();
    if (scan.place().isEmpty()) {
      return frames / 2;
    }
    ScanPath path = scan.place().get().path();
    FundusPoint centre = scan.place().get().centre().point();
    int best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int f = 0; f < frames; f++) {
      for (int a = 0; a < path.ascans(); a++) {
        double distance = path.point(f, a).distanceMm(centre);
        if (distance < least) {
          least = distance;
          best = f;
        }
      }
    }
    return best;
  }
}
