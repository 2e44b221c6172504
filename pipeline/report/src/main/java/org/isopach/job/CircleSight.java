package org.isopach.job;

import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscAngle;
import org.isopach.report.table.ProfileFile;

/**
 * A profile and what else is known along its circle.
 *
 * @param profile its angles counted from the horizontal
 * @param confidence of the less certain boundary, by sample; NaN where there is none
 * @param bandless where the outer bands are missing although Bruch's membrane goes on
 * @param inDisc where the A-scans were found to lie in the disc
 */
record CircleSight(
    CircleProfile profile,
    List<Double> confidence,
    List<CircleStretch> bandless,
    List<CircleStretch> inDisc) {
  /** The layer of nerve fibres. */
  static final Layer FIBRES = new Layer(Boundary.ILM, Boundary.RNFL_GCL);

  /** Narrower stretches are not worth a word; ours. */
  private static final double LEAST_DEGREES = 5;

  private static final List<Boundary> OUTER_BANDS =
      List.of(Boundary.EZ, Boundary.RPE_INNER, Boundary.RPE);

  CircleSight {
    Objects.requireNonNull(profile, "profile");
    confidence = List.copyOf(confidence);
    bandless = List.copyOf(bandless);
    inDisc = List.copyOf(inDisc);
  }

  static CircleSight of(CircleProfile profile, BoundarySet boundaries, CircleValues circle) {
    double[] confidence = circle.of(confidences(boundaries));
    boolean[] bandless = above(circle.of(marks(boundaries, CircleSight::bandless)));
    boolean[] inDisc = above(circle.of(marks(boundaries, CircleSight::inDisc)));
    return new CircleSight(
        profile,
        Arrays.stream(confidence).boxed().toList(),
        CircleStretch.of(bandless, LEAST_DEGREES),
        CircleStretch.of(inDisc, LEAST_DEGREES));
  }

  /** Returns what gives the confidence at angles counted from a zero. */
  ProfileFile.Confidence confidence(AngleZero zero) {
    return degrees -> {
      double place = zero.toHorizontal(degrees) / DiscAngle.FULL_TURN * confidence.size();
      return confidence.get((int) Math.round(place) % confidence.size());
    };
  }

  private static boolean[] above(double[] shares) {
    boolean[] marked = new boolean[shares.length];
    for (int i = 0; i < marked.length; i++) {
      marked[i] = shares[i] >= 0.5;
    }
    return marked;
  }

  private static double[] confidences(BoundarySet boundaries) {
    double[] values = new double[boundaries.frames() * boundaries.ascans()];
    BoundarySurface inner = boundaries.surface(FIBRES.inner()).orElseThrow();
    BoundarySurface outer = boundaries.surface(FIBRES.outer()).orElseThrow();
    for (int i = 0; i < values.length; i++) {
      int f = i / boundaries.ascans();
      int a = i % boundaries.ascans();
      values[i] = Math.min(inner.confidence(f, a), outer.confidence(f, a));
    }
    return values;
  }

  private interface Mark {
    boolean at(BoundarySet boundaries, int frame, int ascan);
  }

  private static double[] marks(BoundarySet boundaries, Mark mark) {
    double[] values = new double[boundaries.frames() * boundaries.ascans()];
    for (int i = 0; i < values.length; i++) {
      values[i] = mark.at(boundaries, i / boundaries.ascans(), i % boundaries.ascans()) ? 1 : 0;
    }
    return values;
  }

  private static boolean inDisc(BoundarySet boundaries, int frame, int ascan) {
    return boundaries.boundaries().stream()
        .anyMatch(
            one -> boundaries.surface(one).orElseThrow().absence(frame, ascan) == Absence.DISC);
  }

  private static boolean bandless(BoundarySet boundaries, int frame, int ascan) {
    boolean any = false;
    for (Boundary band : OUTER_BANDS) {
      Optional<BoundarySurface> surface = boundaries.surface(band);
      if (surface.isPresent()) {
        if (!Float.isNaN(surface.get().depthPx(frame, ascan))) {
          return false;
        }
        any |= surface.get().absence(frame, ascan) == Absence.LAYER_LOST;
      }
    }
    return any && !inDisc(boundaries, frame, ascan);
  }
}
