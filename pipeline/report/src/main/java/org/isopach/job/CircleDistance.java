package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.nerve.ProfileSource;

/**
 * How far the circle scans of one eye lie from one another. Limits: docs/measurements.md, "Circle
 * scans and volumes".
 */
final class CircleDistance {
  /** Of circles farther apart one at least is off the disc, mm. */
  static final double APART_MM = 2 * CircleFindings.OFF_MM;

  private CircleDistance() {}

  /**
   * Returns the distance between the centres of two circle scans, mm; empty when one is no circle
   * scan, or they are not in one frame of reference.
   */
  static OptionalDouble mm(NerveBook.Entry a, NerveBook.Entry b) {
    Optional<FundusPoint> one = centre(a);
    Optional<FundusPoint> other = centre(b);
    return one.isPresent()
            && other.isPresent()
            && NervePlaces.sameFrame(a.scan().sighting(), b.scan().sighting())
        ? OptionalDouble.of(one.get().distanceMm(other.get()))
        : OptionalDouble.empty();
  }

  private static Optional<FundusPoint> centre(NerveBook.Entry entry) {
    return entry
        .scan()
        .profile()
        .filter(profile -> profile.source() == ProfileSource.CIRCLE_SCAN)
        .map(profile -> profile.centre());
  }

  /** Returns whether two circle scans are known to lie too far apart to be compared. */
  static boolean apart(NerveBook.Entry a, NerveBook.Entry b) {
    return mm(a, b).orElse(0) > APART_MM;
  }

  /**
   * Returns which circles of an eye are not compared with an earlier one because they lie apart.
   */
  static List<Finding> notCompared(NerveBook book) {
    List<Finding> findings = new ArrayList<>();
    for (NerveBook.Entry entry : book.all()) {
      if (entry.day().isPresent() && !entry.scan().offDisc()) {
        book.all().stream()
            .filter(other -> other.eye().equals(entry.eye()) && !other.eye().patientId().isEmpty())
            .filter(other -> other.day().isPresent() && !other.scan().offDisc())
            .filter(other -> other.time().isBefore(entry.time()) && apart(other, entry))
            .findFirst()
            .map(other -> notCompared(entry, other))
            .ifPresent(findings::add);
      }
    }
    return findings;
  }

  private static Finding notCompared(NerveBook.Entry entry, NerveBook.Entry other) {
    return new Finding(
        FindingKind.NOT_COMPARABLE,
        entry.scan().sighting().scan().document().location(),
        String.format(
            Locale.ROOT,
            "the circle's centre lies %.2f mm from that of %s: one of the two is off the disc, and"
                + " they are not compared",
            mm(entry, other).orElseThrow(),
            other.day().orElseThrow()));
  }
}
