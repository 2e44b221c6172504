package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.ProfileSource;

/**
 * Says what is wrong with where a circle lies. Limits: docs/measurements.md, "Circle scans and
 * volumes".
 */
final class CircleFindings {
  /** Farther from the disc's centre a circle is off the disc, mm; ours. */
  static final double OFF_MM = 0.30;

  /** From here on a shift is worth a word, mm; ours. */
  static final double SHIFTED_MM = 0.10;

  static final double LEAST_USUAL_MM = 3.3;
  static final double GREATEST_USUAL_MM = 3.6;

  private CircleFindings() {}

  /**
   * Returns what there is to say of a profile.
   *
   * @param opening the disc's opening as another scan shows it in the same frame of reference
   */
  static List<Finding> of(CircleSight circle, Optional<DiscOpening> opening, String subject) {
    List<Finding> findings = new ArrayList<>();
    CircleProfile profile = circle.profile();
    if (profile.source() == ProfileSource.CIRCLE_SCAN) {
      offDisc(circle, opening)
          .or(() -> opening.flatMap(one -> shifted(profile, one)))
          .map(found -> new Finding(found.kind(), subject, found.detail()))
          .ifPresent(findings::add);
    }
    if (!circle.bandless().isEmpty()) {
      findings.add(
          new Finding(
              FindingKind.ATROPHY_BEYOND_CIRCLE,
              subject,
              "the outer bands are missing on the circle: "
                  + CircleStretch.words(circle.bandless())));
    }
    if (profile.diameterMm() < LEAST_USUAL_MM || profile.diameterMm() > GREATEST_USUAL_MM) {
      findings.add(
          new Finding(
              FindingKind.DIAMETER_UNUSUAL,
              subject,
              String.format(
                  Locale.ROOT, "the circle's diameter is %.2f mm", profile.diameterMm())));
    }
    return findings;
  }

  private static Optional<Finding> offDisc(CircleSight circle, Optional<DiscOpening> opening) {
    CircleProfile profile = circle.profile();
    if (opening.isPresent()) {
      double away = opening.get().centre().distanceMm(profile.centre());
      if (away > OFF_MM) {
        return finding(
            FindingKind.CIRCLE_OFF_DISC,
            "the circle's centre lies %.2f mm from that of the disc's opening",
            away);
      }
      if (touches(profile, opening.get())) {
        return finding(
            FindingKind.CIRCLE_OFF_DISC,
            "the circle of %.2f mm cuts the disc's opening",
            profile.diameterMm());
      }
    }
    return circle.inDisc().isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Finding(
                FindingKind.CIRCLE_OFF_DISC,
                "",
                "the circle runs into the disc: " + CircleStretch.words(circle.inDisc())));
  }

  private static boolean touches(CircleProfile profile, DiscOpening opening) {
    double radius = profile.diameterMm() / 2;
    return opening.corners().stream()
        .anyMatch(corner -> corner.distanceMm(profile.centre()) >= radius);
  }

  private static Optional<Finding> shifted(CircleProfile profile, DiscOpening opening) {
    double away = opening.centre().distanceMm(profile.centre());
    return away <= SHIFTED_MM
        ? Optional.empty()
        : finding(
            FindingKind.CIRCLE_SHIFTED,
            "the circle's centre lies %.2f mm from that of the disc's opening",
            away);
  }

  private static Optional<Finding> finding(FindingKind kind, String words, double figure) {
    return Optional.of(new Finding(kind, "", String.format(Locale.ROOT, words, figure)));
  }
}
