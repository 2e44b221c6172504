package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.NerveTrend;
import org.isopach.analysis.nerve.TrendFitter;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalJudge;
import org.isopach.analysis.normal.NormalRules;
import org.isopach.analysis.normal.ReferencePlace;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.analysis.scan.BirthDate;
import org.isopach.analysis.series.AgeSlope;
import org.isopach.report.table.NerveCourse;
import org.isopach.report.table.NerveKey;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveValue;

/** Follows the values of an eye's nerve over all visits. */
final class NerveFollower {
  private final NerveNoise noise;
  private final Optional<NormalJudge> judge;

  NerveFollower(NerveNoise noise, Optional<ReferenceTable> reference) {
    this.noise = noise;
    this.judge = reference.map(table -> new NormalJudge(table, NormalRules.USUAL));
  }

  /** Returns the course of every value of a group. */
  List<NerveCourse> follow(NerveGroup group) {
    return group.keys().stream().map(key -> follow(group, key)).toList();
  }

  private NerveCourse follow(NerveGroup group, NerveKey key) {
    List<NerveBook.Entry> visits = group.visits();
    List<NerveCourse.Point> points = new ArrayList<>();
    double[] years = new double[visits.size()];
    double[] values = new double[visits.size()];
    for (int i = 0; i < years.length; i++) {
      NerveBook.Entry visit = visits.get(i);
      long days = NerveGroup.days(visits.get(0), visit);
      Optional<NerveValue> value = group.table(visit).value(key);
      OptionalDouble number = value.map(NerveValue::value).orElse(OptionalDouble.empty());
      years[i] = days / BirthDate.DAYS_PER_YEAR;
      values[i] = number.orElse(Double.NaN);
      points.add(
          new NerveCourse.Point(
              visit.scan().sighting().scan().identity(),
              days,
              number,
              value.map(NerveValue::reason).orElse("not measured at this visit")));
    }
    Optional<NerveTrend> trend =
        key.measure().unit().equals("um")
            ? Optional.of(
                TrendFitter.fit(
                    key.sector(), years, values, ageing(group, key), repeatSd(group, key)))
            : Optional.empty();
    return new NerveCourse(group.eye(), group.role().code(), key, points, trend);
  }

  private OptionalDouble repeatSd(NerveGroup group, NerveKey key) {
    Optional<Double> sd = noise.of(group, key).map(SectorNoise::sdUm).filter(found -> found > 0);
    return sd.isPresent() ? OptionalDouble.of(sd.get()) : OptionalDouble.empty();
  }

  private AgeSlope ageing(NerveGroup group, NerveKey key) {
    if (judge.isEmpty()) {
      return none(key, "no reference table");
    }
    if (key.measure() != NerveMeasure.FIBRES) {
      return none(key, "no slope of healthy eyes is known for " + key.measure().code());
    }
    List<NerveBook.Entry> visits = group.visits();
    NerveScan first = visits.get(0).scan();
    CircleProfile profile = first.profile().orElseThrow();
    double middle =
        NerveGroup.days(visits.get(0), visits.get(visits.size() - 1)) / BirthDate.DAYS_PER_YEAR / 2;
    NormalEye eye =
        first.eye().ageYears().isPresent()
            ? first.eye().aged(first.eye().ageYears().getAsDouble() + middle)
            : first.eye();
    return judge
        .get()
        .ageing(
            ReferencePlace.circle(
                profile.layer(),
                key.scheme(),
                key.sector(),
                profile.diameterMm(),
                first.zero().kind().code()),
            eye);
  }

  private static AgeSlope none(NerveKey key, String why) {
    return new AgeSlope(key.layer(), key.sector(), OptionalDouble.empty(), "", "", why);
  }
}
