package org.isopach.analysis.scan;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.FundusFrame;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.FundusTransform;

/**
 * What objects say about how frames lie to each other. Registrations are read in both directions,
 * and two that share a frame are joined; longer chains are not, since their errors add up.
 *
 * <p>A direct statement goes before a chain. Where several of one kind would do, they must agree:
 * else nothing is returned. Immutable.
 */
public final class StatedRegistrations {
  /** Largest difference in mm, anywhere in the field, between statements that agree; ours. */
  public static final double AGREE_MM = 0.01;

  /** How far from the first frame's origin the field is taken to reach, each way, mm. */
  private static final double FIELD_MM = 12;

  /** None at all. */
  public static final StatedRegistrations NONE = new StatedRegistrations(List.of());

  private final List<StatedRegistration> stated;

  private StatedRegistrations(List<StatedRegistration> stated) {
    this.stated = stated;
  }

  /** Returns these registrations, in their order. */
  public static StatedRegistrations of(List<StatedRegistration> stated) {
    return new StatedRegistrations(List.copyOf(stated));
  }

  /** Returns all registrations as stated. */
  public List<StatedRegistration> all() {
    return stated;
  }

  /**
   * Returns what takes points of one frame to those of another, the identity for one frame with
   * itself.
   *
   * @return empty when nothing is stated, when what is stated disagrees, or when a frame has no UID
   */
  public Optional<FundusTransform> between(FundusFrame from, FundusFrame to) {
    if (from.uid().isEmpty() || to.uid().isEmpty()) {
      return Optional.empty();
    }
    if (from.equals(to)) {
      return Optional.of(FundusTransform.IDENTITY);
    }
    List<FundusTransform> direct = direct(from, to);
    return agreed(direct.isEmpty() ? chained(from, to) : direct);
  }

  /** Returns whether statements between two frames differ by more than they may. */
  public boolean contradict(FundusFrame from, FundusFrame to) {
    return between(from, to).isEmpty()
        && !(direct(from, to).isEmpty() && chained(from, to).isEmpty());
  }

  private List<FundusTransform> direct(FundusFrame from, FundusFrame to) {
    List<FundusTransform> found = new ArrayList<>();
    for (StatedRegistration one : stated) {
      if (one.from().equals(from) && one.to().equals(to)) {
        found.add(one.transform());
      } else if (one.from().equals(to) && one.to().equals(from)) {
        found.add(one.transform().inverse());
      }
    }
    return found;
  }

  private List<FundusTransform> chained(FundusFrame from, FundusFrame to) {
    List<FundusTransform> found = new ArrayList<>();
    for (StatedRegistration one : stated) {
      for (StatedRegistration step : List.of(one, one.inverse())) {
        if (step.from().equals(from)) {
          direct(step.to(), to).forEach(next -> found.add(step.transform().then(next)));
        }
      }
    }
    return found;
  }

  /** Returns the first of some transforms when all of them agree. */
  private static Optional<FundusTransform> agreed(List<FundusTransform> found) {
    Optional<FundusTransform> first = found.stream().findFirst();
    return first.filter(one -> found.stream().allMatch(other -> agree(one, other)));
  }

  /** The difference of two similarities is greatest at a corner. */
  private static boolean agree(FundusTransform a, FundusTransform b) {
    for (double x : new double[] {-FIELD_MM, FIELD_MM}) {
      for (double y : new double[] {-FIELD_MM, FIELD_MM}) {
        FundusPoint corner = new FundusPoint(x, y);
        if (a.apply(corner).distanceMm(b.apply(corner)) > AGREE_MM) {
          return false;
        }
      }
    }
    return true;
  }
}
