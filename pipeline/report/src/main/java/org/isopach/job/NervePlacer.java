package org.isopach.job;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalJudge;
import org.isopach.analysis.normal.NormalLimits;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.analysis.normal.NormalRules;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveValue;

/** Places values among those of reference groups, where a table was given. */
final class NervePlacer {
  private final Optional<NormalJudge> judge;

  /**
   * What the place of a value depends on beside itself.
   *
   * @param eye the eye
   * @param zero what angles are counted from
   * @param barred why the circle has no place, in words; empty when it may have one
   * @param cautions what else is not accounted for when the circle is placed
   */
  record Scope(NormalEye eye, AngleZero zero, Optional<String> barred, List<String> cautions) {
    Scope {
      Objects.requireNonNull(eye, "eye");
      Objects.requireNonNull(zero, "zero");
      Objects.requireNonNull(barred, "barred");
      cautions = List.copyOf(cautions);
    }
  }

  NervePlacer(Optional<ReferenceTable> table) {
    this.judge = table.map(one -> new NormalJudge(one, NormalRules.USUAL));
  }

  static ReferencePlace onCircle(CircleProfile profile, String scheme, String sector, Scope scope) {
    return ReferencePlace.circle(
        profile.layer(), scheme, sector, profile.diameterMm(), scope.zero().kind().code());
  }

  NerveValue circle(NerveValue value, CircleProfile profile, Scope scope) {
    if (judge.isPresent() && scope.barred().isPresent() && value.value().isPresent()) {
      return value.placed(
          new NormalPlace.NotPlaced(NormalPlace.Reason.NO_REFERENCE, scope.barred().get()));
    }
    NerveValue placed =
        placed(value, onCircle(profile, value.scheme(), value.sector(), scope), scope);
    return placed
        .percentile()
        .map(one -> placed.placed(one.noting(scope.cautions())))
        .orElse(placed);
  }

  NerveValue rim(NerveValue value, Scope scope) {
    String zero = scope.zero().kind().code();
    return placed(value, ReferencePlace.rim(value.scheme(), value.sector(), zero), scope);
  }

  NerveValue annulus(NerveValue value, Layer layer, Scope scope) {
    return value.measure() == NerveMeasure.GANGLION
        ? placed(value, ReferencePlace.ellipse(layer, value.scheme(), value.sector()), scope)
        : value;
  }

  Optional<NormalLimits> limits(ReferencePlace place, Scope scope) {
    return scope.barred().isPresent()
        ? Optional.empty()
        : judge
            .flatMap(one -> one.limits(place, scope.eye()))
            .map(one -> one.noting(scope.cautions()));
  }

  private NerveValue placed(NerveValue value, ReferencePlace place, Scope scope) {
    if (judge.isEmpty()) {
      return value;
    }
    double number = value.value().orElse(Double.NaN);
    return value.placed(judge.get().place(number, place, scope.eye(), OptionalDouble.empty()));
  }
}
