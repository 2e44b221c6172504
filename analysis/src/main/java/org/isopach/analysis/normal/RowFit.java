package org.isopach.analysis.normal;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.normal.NormalPlace.NotPlaced;
import org.isopach.analysis.normal.NormalPlace.Reason;

/** Whether a row may be used for an eye, and what must be said when it is. */
final class RowFit {
  private final NormalRules rules;
  private final ReferencePlace place;
  private final NormalEye eye;

  RowFit(NormalRules rules, ReferencePlace place, NormalEye eye) {
    this.rules = rules;
    this.place = place;
    this.eye = eye;
  }

  /** Returns the first obstacle, in the order of {@link Reason}, or empty when the row fits. */
  Optional<NotPlaced> obstacle(ReferenceRow row) {
    return obstacle(row.place())
        .or(() -> tooSmall(row.n()))
        .or(() -> obstacle(row.scope()))
        .or(() -> unusual(row.scope().axialLengths()))
        .or(() -> sizeUnknown(row))
        .or(() -> silent(row));
  }

  /** Returns the first obstacle of a row that says how a place ages. */
  Optional<NotPlaced> obstacle(ReferenceAgeing row) {
    return obstacle(row.place()).or(() -> obstacle(row.scope()));
  }

  private Optional<NotPlaced> obstacle(ReferencePlace of) {
    if (of.measure() != place.measure()) {
      return refuse(Reason.NO_REFERENCE, "nothing is known of " + place.words());
    }
    if (!of.sector().equals(place.sector()) || !of.scheme().equals(place.scheme())) {
      return refuse(Reason.SECTOR_UNKNOWN, "no row of " + place.words());
    }
    if (!of.boundaries().equals(place.boundaries())) {
      return refuse(
          Reason.BOUNDARIES_DIFFER,
          "the reference is of " + of.boundaries() + ", not " + place.boundaries());
    }
    if (of.angleZero().isPresent() && !of.angleZero().equals(place.angleZero())) {
      return refuse(
          Reason.ANGLE_ZERO_DIFFERS,
          "the reference counts angles from the " + of.angleZero().orElseThrow());
    }
    return diameter(of);
  }

  private Optional<NotPlaced> diameter(ReferencePlace of) {
    if (place.diameterMm().isEmpty()) {
      return place.measure() == ReferenceMeasure.CIRCLE
          ? refuse(Reason.DIAMETER_DIFFERS, "the circle's diameter is not known")
          : Optional.empty();
    }
    double needed = of.diameterMm().orElse(rules.usualDiameterMm());
    double found = place.diameterMm().getAsDouble();
    // Half a micrometre of slack: 3.46 - 3.36 is a little more than 0.1 in binary.
    if (Math.abs(found - needed) <= rules.diameterToleranceMm() + 5e-4) {
      return Optional.empty();
    }
    return refuse(
        Reason.DIAMETER_DIFFERS,
        String.format(
            Locale.ROOT,
            "the circle's diameter of %.2f mm differs by more than %.1f mm from the %.2f mm %s",
            found,
            rules.diameterToleranceMm(),
            needed,
            of.diameterMm().isPresent() ? "of the reference" : "usual where a source states none"));
  }

  private Optional<NotPlaced> tooSmall(int n) {
    return n >= rules.leastPeople()
        ? Optional.empty()
        : refuse(
            Reason.GROUP_TOO_SMALL,
            "the reference is of "
                + n
                + " people, at least "
                + rules.leastPeople()
                + " are needed");
  }

  private Optional<NotPlaced> obstacle(ReferenceScope scope) {
    return device(scope)
        .or(() -> young(scope.ages()))
        .or(() -> outside(scope.ages(), completed(eye.ageYears()), "age", "years"))
        .or(() -> outside(scope.axialLengths(), eye.axialLengthMm(), "axial length", "mm"));
  }

  private Optional<NotPlaced> device(ReferenceScope scope) {
    boolean otherClass =
        scope.deviceClass().isPresent()
            && eye.deviceClass().isPresent()
            && !scope.deviceClass().equals(eye.deviceClass());
    boolean otherModel =
        !scope.deviceModels().isEmpty()
            && !eye.deviceModel().map(scope.deviceModels()::contains).orElse(false);
    if (!otherClass && !otherModel) {
      return Optional.empty();
    }
    return refuse(
        Reason.DEVICE_NOT_COVERED,
        otherClass
            ? "the reference is of " + scope.deviceClass().orElseThrow() + " instruments"
            : "the reference is confined to instruments among which '"
                + eye.deviceModel().orElse("model not stated")
                + "' is not");
  }

  private Optional<NotPlaced> young(StatedRange ages) {
    if (ages.isStated() || eye.ageYears().orElse(rules.leastAge()) >= rules.leastAge()) {
      return Optional.empty();
    }
    return refuse(
        Reason.AGE_OUTSIDE,
        String.format(
            Locale.ROOT,
            "age %.0f years: the source states no ages, so that it counts from %d years on",
            Math.floor(eye.ageYears().getAsDouble()),
            rules.leastAge()));
  }

  private Optional<NotPlaced> unusual(StatedRange lengths) {
    StatedRange usual = rules.usualAxialLengthsMm();
    OptionalDouble length = eye.axialLengthMm();
    if (lengths.isStated() || length.isEmpty() || usual.contains(length.getAsDouble())) {
      return Optional.empty();
    }
    return refuse(
        Reason.AXIAL_LENGTH_OUTSIDE,
        String.format(
            Locale.ROOT,
            "axial length %.2f mm: the source states no lengths, so that it counts for %s mm",
            length.getAsDouble(),
            usual.words()));
  }

  private Optional<NotPlaced> outside(
      StatedRange range, OptionalDouble value, String what, String unit) {
    boolean age = unit.equals("years");
    if (!range.isStated() || (value.isPresent() && range.contains(value.getAsDouble()))) {
      return Optional.empty();
    }
    String scope = "; the reference is of " + range.words() + " " + unit;
    if (value.isEmpty()) {
      return refuse(
          age ? Reason.AGE_UNKNOWN : Reason.AXIAL_LENGTH_UNKNOWN,
          "the " + what + " is not known" + scope);
    }
    return refuse(
        age ? Reason.AGE_OUTSIDE : Reason.AXIAL_LENGTH_OUTSIDE,
        String.format(
            Locale.ROOT,
            age ? "%s %.0f %s is outside%s" : "%s %.2f %s is outside%s",
            what,
            value.getAsDouble(),
            unit,
            scope));
  }

  private Optional<NotPlaced> sizeUnknown(ReferenceRow row) {
    if (row.age().isPresent() && eye.ageYears().isEmpty()) {
      return refuse(Reason.AGE_UNKNOWN, "the reference's mean depends on age, which is not known");
    }
    if (row.axialLength().isPresent() && eye.axialLengthMm().isEmpty()) {
      return refuse(
          Reason.AXIAL_LENGTH_UNKNOWN,
          "the reference's mean depends on axial length, which is not known");
    }
    if (row.discArea().isPresent() && eye.discAreaMm2().isEmpty()) {
      return refuse(
          Reason.DISC_AREA_UNKNOWN, "the reference's mean depends on disc area, not known here");
    }
    return Optional.empty();
  }

  private Optional<NotPlaced> silent(ReferenceRow row) {
    List<String> notes = silences(row);
    return rules.strict() && !notes.isEmpty()
        ? refuse(Reason.SCOPE_NOT_STATED, String.join("; ", notes))
        : Optional.empty();
  }

  /** Returns what a strict rule would refuse for. */
  private List<String> silences(ReferenceRow row) {
    List<String> notes = new ArrayList<>();
    if (!row.scope().ages().isStated()) {
      notes.add("age not accounted for: the source states no ages");
    }
    if (place.measure() == ReferenceMeasure.CIRCLE && row.place().diameterMm().isEmpty()) {
      notes.add("the source states no circle diameter");
    }
    if (row.scope().deviceClass().isEmpty()) {
      notes.add("the source does not say with what kind of instrument");
    } else if (eye.deviceClass().isEmpty() && row.scope().deviceModels().isEmpty()) {
      notes.add(
          "the reference is of "
              + row.scope().deviceClass().orElseThrow()
              + " instruments; of what kind this one is, is not known");
    }
    return notes;
  }

  /** Returns all that is not accounted for when a row is used. */
  List<String> notes(ReferenceRow row) {
    List<String> notes = new ArrayList<>(silences(row));
    if (row.age().isEmpty() && row.scope().ages().isStated()) {
      notes.add("the reference's mean is one for all its ages");
    }
    if (row.axialLength().isEmpty()) {
      notes.add("axial length not accounted for");
    }
    if (!place.isGlobal() && row.place().angleZero().isEmpty()) {
      notes.add("the source does not say from where it counts angles");
    }
    if (row.source().status() != ReferenceSource.Status.READ) {
      notes.add("the reference's values are " + row.source().status().code());
    }
    return notes;
  }

  private static OptionalDouble completed(OptionalDouble years) {
    return years.isPresent()
        ? OptionalDouble.of(Math.floor(years.getAsDouble()))
        : OptionalDouble.empty();
  }

  private static Optional<NotPlaced> refuse(Reason reason, String detail) {
    return Optional.of(new NotPlaced(reason, detail));
  }
}
