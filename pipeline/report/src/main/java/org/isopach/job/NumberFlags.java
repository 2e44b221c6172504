package org.isopach.job;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.ArcScheme;
import org.isopach.analysis.nerve.ArcSchemes;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveValue;

/**
 * Which findings make which numbers doubtful: docs/measurements.md, "Tables of the nerve".
 *
 * @param said all that was said of the scan
 * @param atrophy where the outer bands are missing along the circle, from the horizontal
 * @param zero what the angles of arcs are counted from
 * @param resolvedUm the least thickness whose two lines can be told apart
 */
record NumberFlags(
    List<Finding> said, List<CircleStretch> atrophy, AngleZero zero, double resolvedUm) {
  private static final Set<FindingKind> PICTURE =
      set(
          FindingKind.LATERALITY_DOUBTFUL,
          FindingKind.SCALE_CONTRADICTION,
          FindingKind.FRAMES_UNREADABLE,
          FindingKind.LOW_SIGNAL,
          FindingKind.LOW_SIGNAL_FRAMES,
          FindingKind.DARK_FRAMES,
          FindingKind.RETINA_CUT_OFF,
          FindingKind.MIRROR_IMAGE,
          FindingKind.MOTION_STEPS);

  private static final Set<FindingKind> MACULA =
      set(FindingKind.DECENTRED, FindingKind.FOVEA_NOT_FOUND, FindingKind.FOVEA_BY_INNER_LAYERS);

  private static final Set<FindingKind> CIRCLE =
      set(
          FindingKind.CIRCLE_OFF_DISC,
          FindingKind.CIRCLE_SHIFTED,
          FindingKind.CIRCLES_APART,
          FindingKind.CIRCLE_NOT_CHECKED,
          FindingKind.DIAMETER_UNUSUAL);

  /** What a reader of single numbers must know of their scan, whichever the numbers are. */
  static final Set<FindingKind> OF_ANY_NUMBER =
      union(
          PICTURE,
          MACULA,
          CIRCLE,
          set(
              FindingKind.ATROPHY_BEYOND_CIRCLE,
              FindingKind.LAYER_NOT_RESOLVED,
              FindingKind.REFERENCE_IMAGE_MISSING,
              FindingKind.NOT_TURNED_TO_FOVEA));

  NumberFlags {
    said = List.copyOf(said);
    atrophy = List.copyOf(atrophy);
  }

  /** Returns a value with what makes it doubtful. */
  NerveValue on(NerveValue value) {
    return value.flagged(
        said.stream().map(Finding::kind).filter(kind -> applies(kind, value)).distinct().toList());
  }

  private boolean applies(FindingKind kind, NerveValue value) {
    boolean fibres = value.measure() == NerveMeasure.FIBRES;
    return PICTURE.contains(kind)
        || (kind == FindingKind.LAYER_NOT_RESOLVED && NerveFindings.notResolved(value, resolvedUm))
        || (MACULA.contains(kind) && restsOnFovea(value.measure()))
        || (fibres && CIRCLE.contains(kind))
        || (fibres && kind == FindingKind.ATROPHY_BEYOND_CIRCLE && touched(value));
  }

  private static boolean restsOnFovea(NerveMeasure measure) {
    return switch (measure) {
      case GANGLION,
          GANGLION_MINIMUM,
          GANGLION_ASYMMETRY,
          GANGLION_ASYMMETRY_MIRRORED,
          FOVEA_DISC_ANGLE ->
          true;
      default -> false;
    };
  }

  private boolean touched(NerveValue value) {
    Optional<ArcScheme> scheme =
        ArcSchemes.all().stream().filter(one -> one.name().equals(value.scheme())).findFirst();
    return scheme.isEmpty()
        || scheme.get().arcs().stream()
            .filter(arc -> arc.name().equals(value.sector()))
            .anyMatch(arc -> atrophy.stream().anyMatch(one -> one.countedFrom(zero).touches(arc)));
  }

  private static Set<FindingKind> set(FindingKind... kinds) {
    return Collections.unmodifiableSet(EnumSet.copyOf(Arrays.asList(kinds)));
  }

  @SafeVarargs
  private static Set<FindingKind> union(Set<FindingKind>... sets) {
    Set<FindingKind> all = EnumSet.noneOf(FindingKind.class);
    for (Set<FindingKind> set : sets) {
      all.addAll(set);
    }
    return Collections.unmodifiableSet(all);
  }
}
