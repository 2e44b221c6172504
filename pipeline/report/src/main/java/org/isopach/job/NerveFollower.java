package org.isopach.job;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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
import org.isopach.report.table.FlagWords;
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
    Map<NerveKey, NerveTrend> trends = new HashMap<>();
    List<NerveBook.Entry> visits = group.visits();
    for (List<NerveKey> family : group.families()) {
      List<NerveTrend> judged =
          TrendFitter.judge(family.stream().map(key -> trend(group, visits, key)).toList());
      for (int i = 0; i < judged.size(); i++) {
        trends.put(family.get(i), judged.get(i));
      }
    }
    List<String> cautions = cautions(group.role(), visits);
    return group.keys().stream()
        .map(
            key ->
                new NerveCourse(
                    group.eye(),
                    group.role().code(),
                    key,
                    points(group, visits, key),
                    Optional.ofNullable(trends.get(key)),
                    key.measure() == NerveMeasure.FIBRES ? cautions : List.of()))
        .toList();
  }

  /** A circle put down elsewhere at one visit bends the course of every arc. */
  private static List<String> cautions(NerveRole role, List<NerveBook.Entry> visits) {
    if (role != NerveRole.CIRCLE) {
      return List.of();
    }
    List<String> words = new ArrayList<>();
    for (NerveBook.Entry visit : visits) {
      visit
          .scan()
          .shifted()
          .ifPresent(how -> words.add("at the visit of " + visit.day().orElseThrow() + " " + how));
    }
    long unchecked = visits.stream().filter(visit -> visit.scan().centringUnchecked()).count();
    if (unchecked > 0) {
      words.add(
          FlagWords.CENTRING_NOT_CHECKED + " at " + unchecked + " of " + visits.size() + " visits");
    }
    return words;
  }

  private static List<NerveCourse.Point> points(
      NerveGroup group, List<NerveBook.Entry> visits, NerveKey key) {
    return visits.stream()
        .map(
            visit -> {
              Optional<NerveValue> value = group.table(visit).value(key);
              return new NerveCourse.Point(
                  visit.scan().sighting().scan().identity(),
                  NerveGroup.days(visits.get(0), visit),
                  value.map(NerveValue::value).orElse(OptionalDouble.empty()),
                  value.map(NerveValue::reason).orElse("not measured at this visit"));
            })
        .toList();
  }

  private NerveTrend trend(NerveGroup group, List<NerveBook.Entry> visits, NerveKey key) {
    double[] years = new double[visits.size()];
    double[] values = new double[visits.size()];
    for (int i = 0; i < years.length; i++) {
      NerveBook.Entry visit = visits.get(i);
      years[i] = NerveGroup.days(visits.get(0), visit) / BirthDate.DAYS_PER_YEAR;
      values[i] =
          group
              .table(visit)
              .value(key)
              .map(NerveValue::value)
              .orElse(OptionalDouble.empty())
              .orElse(Double.NaN);
    }
    return TrendFitter.fit(key.sector(), years, values, ageing(group, key), repeatSd(group, key));
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
