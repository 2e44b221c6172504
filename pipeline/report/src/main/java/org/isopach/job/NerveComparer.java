package org.isopach.job;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.nerve.DefectFinder;
import org.isopach.analysis.nerve.EventJudge;
import org.isopach.analysis.nerve.NerveEvent;
import org.isopach.analysis.nerve.PlacePair;
import org.isopach.analysis.nerve.ProfileChange;
import org.isopach.analysis.nerve.ProfileDefect;
import org.isopach.analysis.nerve.ProfileNoise;
import org.isopach.analysis.nerve.ProfileTurn;
import org.isopach.analysis.stat.CannotEstimateException;
import org.isopach.report.table.FlagWords;
import org.isopach.report.table.NerveChange;
import org.isopach.report.table.NerveKey;
import org.isopach.report.table.NerveMeasure;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Compares the visits of an eye's nerve with the baseline. */
final class NerveComparer {
  private static final String LOCAL = "local";

  private final NerveNoise noise;
  private final Map<ProfileNoise, DefectFinder> finders = new LinkedHashMap<>();

  NerveComparer(NerveNoise noise) {
    this.noise = noise;
  }

  /** Returns the changes of a group's visits since its baseline, visit by visit. */
  List<NerveChange> compare(NerveGroup group, BaselineChoice choice) {
    Optional<NerveBook.Entry> baseline = baseline(group, choice);
    List<NerveChange> changes = new ArrayList<>();
    for (NerveBook.Entry visit : group.visits()) {
      if (baseline.isPresent() && !visit.equals(baseline.get())) {
        changes.addAll(compare(group, baseline.get(), visit));
      }
    }
    return changes;
  }

  /** Returns the visit that others are compared with; empty when the group lacks it. */
  static Optional<NerveBook.Entry> baseline(NerveGroup group, BaselineChoice choice) {
    return group.visits().stream()
        .filter(visit -> choice.studyUid().map(visit.studyUid()::equals).orElse(true))
        .findFirst();
  }

  private List<NerveChange> compare(
      NerveGroup group, NerveBook.Entry before, NerveBook.Entry after) {
    Map<NerveKey, NerveEvent> events = events(group, before, after);
    List<NerveChange> changes = new ArrayList<>();
    for (NerveKey key : group.keys()) {
      Optional<NerveEvent> event = Optional.ofNullable(events.get(key));
      changes.add(
          NerveChange.between(
              group.eye(),
              group.role().code(),
              key,
              before.scan().sighting().scan().identity(),
              after.scan().sighting().scan().identity(),
              OptionalLong.of(NerveGroup.days(before, after)),
              value(group.table(before), key),
              value(group.table(after), key),
              event,
              words(group, event, before, after)));
    }
    if (group.role() != NerveRole.MACULA_VOLUME) {
      changes.addAll(defects(group, before, after));
    }
    return changes;
  }

  /** What the change says, with what must be known beside it to believe it. */
  private static String words(
      NerveGroup group, Optional<NerveEvent> event, NerveBook.Entry before, NerveBook.Entry after) {
    List<String> words = new ArrayList<>();
    event.map(NerveEvent::words).ifPresent(words::add);
    boolean published =
        event
            .filter(NerveEvent.Judged.class::isInstance)
            .map(NerveEvent.Judged.class::cast)
            .filter(one -> one.noise().source() == NoiseSource.PUBLISHED)
            .isPresent();
    if (published && group.role() != NerveRole.CIRCLE) {
      words.add("the published noise was " + NerveNoise.NOT_OF_LAID_CIRCLES);
    }
    if (event.isPresent()) {
      words.addAll(shifts(group, before, after));
    }
    return String.join("; ", words);
  }

  /** A circle beside the disc is thinner on one side and thicker on the other, without any loss. */
  private static List<String> shifts(
      NerveGroup group, NerveBook.Entry before, NerveBook.Entry after) {
    List<String> words = new ArrayList<>();
    if (group.role() == NerveRole.CIRCLE) {
      before.scan().shifted().ifPresent(how -> words.add("at the baseline " + how));
      after.scan().shifted().ifPresent(how -> words.add("at the follow-up " + how));
      CircleDistance.mm(before, after)
          .ifPresent(
              mm ->
                  words.add(
                      String.format(
                          Locale.ROOT, "the centres of these two circles lie %.2f mm apart", mm)));
      String unchecked =
          Stream.of(
                  before.scan().centringUnchecked() ? "baseline" : "",
                  after.scan().centringUnchecked() ? "follow-up" : "")
              .filter(visit -> !visit.isEmpty())
              .collect(Collectors.joining(" and "));
      if (!unchecked.isEmpty()) {
        words.add(FlagWords.CENTRING_NOT_CHECKED + " at " + unchecked);
      }
    }
    return words;
  }

  private static OptionalDouble value(NerveTable table, NerveKey key) {
    return table.value(key).map(NerveValue::value).orElse(OptionalDouble.empty());
  }

  private Map<NerveKey, NerveEvent> events(
      NerveGroup group, NerveBook.Entry before, NerveBook.Entry after) {
    Map<NerveKey, NerveEvent> events = new LinkedHashMap<>();
    for (List<NerveKey> family : group.families()) {
      List<NerveEvent> judged =
          EventJudge.judge(
              family.stream()
                  .map(
                      key ->
                          new PlacePair(
                              key.sector(),
                              value(group.table(before), key).orElse(Double.NaN),
                              value(group.table(after), key).orElse(Double.NaN),
                              noise.of(group, key)))
                  .toList());
      for (int i = 0; i < family.size(); i++) {
        events.put(family.get(i), judged.get(i));
      }
    }
    return events;
  }

  /** Without repeats nothing is known of the noise of single angles, which is then said. */
  private List<NerveChange> defects(
      NerveGroup group, NerveBook.Entry before, NerveBook.Entry after) {
    Optional<ProfileNoise> known = noise.ofProfile(group);
    if (known.isEmpty()) {
      String why =
          "local defects are not looked for: the noise of single angles is not published, and there"
              + " are fewer than 3 pairs of repeats of one day";
      return List.of(defect(group, before, after, "", OptionalDouble.empty(), why));
    }
    double[] earlier = NerveGroup.profile(before);
    double[] later = ProfileTurn.onto(earlier, NerveGroup.profile(after));
    double[] changes = ProfileChange.of(earlier, later, known.get()).changesUm();
    List<ProfileDefect> found;
    try {
      found =
          finders
              .computeIfAbsent(
                  known.get(), one -> new DefectFinder(one.ofDifference(), changes.length))
              .find(changes);
    } catch (CannotEstimateException e) {
      String why = "local defects are not looked for: " + e.getMessage();
      return List.of(defect(group, before, after, "", OptionalDouble.empty(), why));
    }
    if (found.isEmpty()) {
      return List.of(
          defect(
              group,
              before,
              after,
              "",
              OptionalDouble.empty(),
              "no stretch of the circle grew thinner beyond noise"));
    }
    return found.stream()
        .map(
            one ->
                defect(
                    group,
                    before,
                    after,
                    String.format(Locale.ROOT, "%.1f-%.1f", one.fromDegrees(), one.toDegrees()),
                    OptionalDouble.of(-one.maxDepthUm()),
                    Stream.concat(Stream.of(one.words()), shifts(group, before, after).stream())
                        .collect(Collectors.joining("; "))))
        .toList();
  }

  private static NerveChange defect(
      NerveGroup group,
      NerveBook.Entry before,
      NerveBook.Entry after,
      String where,
      OptionalDouble change,
      String words) {
    return NerveChange.ofStretch(
        group.eye(),
        group.role().code(),
        new NerveKey(NerveMeasure.FIBRE_DEFECT, CircleSight.FIBRES.name(), LOCAL, where),
        before.scan().sighting().scan().identity(),
        after.scan().sighting().scan().identity(),
        OptionalLong.of(NerveGroup.days(before, after)),
        change,
        words);
  }
}
