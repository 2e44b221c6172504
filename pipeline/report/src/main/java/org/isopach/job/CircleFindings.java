package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.ProfileSource;
import org.isopach.report.table.FlagWords;

/**
 * Says what is wrong with where a circle lies. Limits: docs/measurements.md, "Circle scans and
 * volumes".
 */
final class CircleFindings {
  /** Why a value is refused, as tables name it. */
  static final String OFF_DISC = "off-disc";

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
   * @param witness what other scans tell of where the disc is
   */
  static List<Finding> of(CircleSight circle, CircleWitness witness, String subject) {
    List<Finding> findings = new ArrayList<>();
    CircleProfile profile = circle.profile();
    if (profile.source() == ProfileSource.CIRCLE_SCAN) {
      offDisc(circle, witness.opening())
          .or(
              () ->
                  witness.opening().isPresent()
                      ? shifted(profile, witness.opening().get())
                      : unchecked(witness.otherCircleMm()))
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

  /** Two circles that lie apart cannot both be centred; which of them is, they do not tell. */
  private static Optional<Finding> unchecked(OptionalDouble otherMm) {
    double away = otherMm.orElse(0);
    return away > 2 * SHIFTED_MM
        ? Optional.of(
            new Finding(
                FindingKind.CIRCLES_APART,
                "",
                String.format(
                    Locale.ROOT,
                    "the centre of another circle scan of the eye lies %.2f mm away, so that one of"
                        + " them at least is %.2f mm or more off the disc's centre",
                    away,
                    away / 2)))
        : Optional.of(
            new Finding(
                FindingKind.CIRCLE_NOT_CHECKED,
                "",
                FlagWords.CENTRING_NOT_CHECKED
                    + ": no volume in the same frame of reference shows the disc"));
  }

  /** Returns why a circle that is off the disc has no values, or empty when it is not. */
  static Optional<String> offDisc(List<Finding> findings) {
    return findings.stream()
        .filter(one -> one.kind() == FindingKind.CIRCLE_OFF_DISC)
        .map(one -> OFF_DISC + ": " + one.detail())
        .findFirst();
  }

  /** Returns why a circle has no place among normal eyes, or empty. */
  static Optional<String> barred(List<Finding> findings, CircleWitness witness) {
    if (offDisc(findings).isPresent()) {
      return Optional.of("the circle is off the disc, those of references lie round it");
    }
    boolean oneIsOff =
        findings.stream().anyMatch(one -> one.kind() == FindingKind.CIRCLES_APART)
            && witness.otherCircleMm().orElse(0) > 2 * OFF_MM;
    return oneIsOff
        ? Optional.of("this circle or another of the eye is off the disc, and which is not known")
        : Optional.empty();
  }

  /** Returns what was said of how the circle is centred. */
  static Stream<Finding> ofCentring(List<Finding> findings) {
    return findings.stream()
        .filter(
            finding ->
                switch (finding.kind()) {
                  case CIRCLE_SHIFTED, CIRCLES_APART, CIRCLE_NOT_CHECKED -> true;
                  default -> false;
                });
  }

  private static Optional<Finding> finding(FindingKind kind, String words, double figure) {
    return Optional.of(new Finding(kind, "", String.format(Locale.ROOT, words, figure)));
  }
}
