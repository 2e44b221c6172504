package org.isopach.job;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.DiscAngle;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.ProfileSource;

/**
 * Where fovea and disc lie, as far as the scans of one visit of an eye tell one another. Only scans
 * counted from the same frame of reference do. Where a circle scan lies, those of other visits may
 * tell too: the disc stays where it is.
 */
final class NervePlaces {
  private final List<NerveSighting> visit;
  private final List<NerveSighting> eye;

  /** Makes the places of a visit that is all there is of an eye. */
  NervePlaces(List<NerveSighting> visit) {
    this(visit, visit);
  }

  /**
   * Makes the places of a visit.
   *
   * @param eye the scans of all visits of the eye, those of this one among them
   */
  NervePlaces(List<NerveSighting> visit, List<NerveSighting> eye) {
    this.visit = List.copyOf(visit);
    this.eye = List.copyOf(eye);
  }

  /** Returns what other scans tell of where a circle scan lies. */
  CircleWitness witness(NerveSighting one) {
    Optional<DiscOpening> opening = otherOpening(one).or(() -> otherOpening(one, eye));
    Optional<FundusPoint> centre = one.circle().map(circle -> circle.profile().centre());
    return new CircleWitness(
        opening,
        centre.isEmpty()
            ? OptionalDouble.empty()
            : inFrame(one, eye)
                .flatMap(other -> other.circle().stream())
                .filter(NervePlaces::mayLieRoundTheDisc)
                .mapToDouble(other -> other.profile().centre().distanceMm(centre.get()))
                .max());
  }

  private static boolean mayLieRoundTheDisc(CircleSight circle) {
    return circle.profile().source() == ProfileSource.CIRCLE_SCAN && circle.inDisc().isEmpty();
  }

  private Optional<DiscOpening> otherOpening(NerveSighting one) {
    return otherOpening(one, visit);
  }

  /** Returns the opening that the first other scan of the same frame shows, or empty. */
  private static Optional<DiscOpening> otherOpening(NerveSighting one, List<NerveSighting> others) {
    return inFrame(one, others)
        .flatMap(other -> other.disc().stream())
        .map(DiscSight::opening)
        .findFirst();
  }

  /** Returns the area in mm² of the eye's opening, from this scan or any other of the visit. */
  OptionalDouble openingMm2(NerveSighting one) {
    Optional<DiscSight> disc =
        one.disc().or(() -> visit.stream().flatMap(other -> other.disc().stream()).findFirst());
    return disc.isPresent()
        ? OptionalDouble.of(disc.get().opening().areaMm2())
        : OptionalDouble.empty();
  }

  /**
   * Returns the angle between the horizontal and the line from fovea to disc, degrees, positive
   * where the disc lies higher; empty when either is not known in the scan's frame, or the line is
   * too steep to be one.
   */
  OptionalDouble foveaDiscDegrees(NerveSighting one) {
    Optional<FundusPoint> fovea =
        one.fovea()
            .or(() -> inFrame(one, visit).flatMap(other -> other.fovea().stream()).findFirst());
    Optional<FundusPoint> disc =
        one.disc()
            .map(own -> own.opening().centre())
            .or(() -> otherOpening(one).map(DiscOpening::centre))
            .or(one::discCentre)
            .or(
                () ->
                    inFrame(one, visit).flatMap(other -> other.discCentre().stream()).findFirst());
    if (fovea.isEmpty() || disc.isEmpty() || one.scan().laterality().isEmpty()) {
      return OptionalDouble.empty();
    }
    double seen = DiscAngle.ofDegrees(fovea.get(), disc.get(), one.scan().laterality().get());
    double degrees = -DiscAngle.signed(seen);
    return Math.abs(degrees) <= AngleZero.STEEPEST_DEGREES
        ? OptionalDouble.of(degrees)
        : OptionalDouble.empty();
  }

  private static Stream<NerveSighting> inFrame(NerveSighting one, List<NerveSighting> others) {
    return others.stream().filter(other -> !other.equals(one) && sameFrame(one, other));
  }

  /** Returns whether two scans are known to lie in one frame of reference, of one scale. */
  static boolean sameFrame(NerveSighting a, NerveSighting b) {
    return a.scan().path().isPresent()
        && b.scan().path().isPresent()
        && a.scan().path().get().frame().equals(b.scan().path().get().frame())
        && a.lateralScale() == b.lateralScale();
  }
}
