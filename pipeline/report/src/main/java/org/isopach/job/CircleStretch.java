package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.Arc;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.analysis.nerve.DiscAngle;

/**
 * A stretch of a circle, in degrees from the horizontal unless counted from another zero.
 *
 * @param fromDegrees where it begins, from 0 to below 360
 * @param widthDegrees how far it reaches, up to 360
 */
record CircleStretch(double fromDegrees, double widthDegrees) {
  /** Returns the stretches of a turn that are marked, from a width on. */
  static List<CircleStretch> of(boolean[] marked, double leastDegrees) {
    int n = marked.length;
    double step = DiscAngle.FULL_TURN / n;
    int start = 0;
    while (start < n && marked[start]) {
      start++;
    }
    if (start == n) {
      return List.of(new CircleStretch(0, DiscAngle.FULL_TURN));
    }
    List<CircleStretch> stretches = new ArrayList<>();
    int run = 0;
    for (int i = 1; i <= n; i++) {
      boolean on = marked[(start + i) % n];
      run += on ? 1 : 0;
      if (!on && run * step >= leastDegrees) {
        double from = DiscAngle.normal((start + i - run - 0.5) * step);
        stretches.add(new CircleStretch(from, run * step));
      }
      run = on ? run : 0;
    }
    return stretches;
  }

  /** Returns stretches in words: the quadrants they touch, and their angles. */
  static String words(List<CircleStretch> stretches) {
    return stretches.stream().map(CircleStretch::words).collect(Collectors.joining(", "));
  }

  private String words() {
    String names =
        ArcSchemes.QUADRANTS.arcs().stream()
            .filter(this::touches)
            .map(Arc::name)
            .collect(Collectors.joining("/"));
    return String.format(
        Locale.ROOT,
        "%s (%.0f to %.0f degrees)",
        names,
        fromDegrees,
        DiscAngle.normal(fromDegrees + widthDegrees));
  }

  /** Returns the same stretch with its angles counted from another zero. */
  CircleStretch countedFrom(AngleZero zero) {
    return new CircleStretch(zero.ofHorizontal(fromDegrees), widthDegrees);
  }

  /** Returns whether any of it lies in an arc; both counted from one zero. */
  boolean touches(Arc arc) {
    return arc.contains(fromDegrees)
        || DiscAngle.normal(arc.fromDegrees() - fromDegrees) < widthDegrees;
  }
}
