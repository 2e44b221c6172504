package org.isopach.job;

import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.report.table.NerveKey;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/**
 * The scans of one eye that may be compared with one another: all in one role, circles of one
 * diameter that lie round the disc and not known to lie apart, all dated, the earliest first.
 *
 * @param eye which eye; its patient is named
 * @param role what they were taken for
 * @param scans at least one
 */
record NerveGroup(Eye eye, NerveRole role, List<NerveBook.Entry> scans) {
  /**
   * Circles whose diameters differ by more tell nothing of one another's noise, mm; ours: wide
   * enough for one circle in eyes of any length, narrower than from a usual circle to the next.
   */
  private static final double NOISE_DIAMETERS_APART_MM = 0.5;

  NerveGroup {
    scans = List.copyOf(scans);
  }

  /** Returns the groups of a run, by eye in the order of the book, then by role and diameter. */
  static List<NerveGroup> of(NerveBook book) {
    Map<Eye, List<NerveBook.Entry>> eyes = new LinkedHashMap<>();
    for (NerveBook.Entry entry : book.all()) {
      if (!entry.eye().patientId().isEmpty() && entry.day().isPresent()) {
        eyes.computeIfAbsent(entry.eye(), eye -> new ArrayList<>()).add(entry);
      }
    }
    List<NerveGroup> groups = new ArrayList<>();
    eyes.forEach(
        (eye, entries) -> {
          for (NerveRole role : NerveRole.values()) {
            groups.addAll(of(eye, role, entries));
          }
        });
    return groups;
  }

  /** Returns why scans of eyes seen more than once are in no group, though they have values. */
  static List<Finding> leftOut(NerveBook book) {
    List<Finding> findings = new ArrayList<>();
    for (NerveBook.Entry entry : book.all()) {
      boolean nameless = entry.eye().patientId().isEmpty();
      boolean seenAgain =
          book.all().stream()
              .filter(other -> other.eye().equals(entry.eye()))
              .anyMatch(other -> !other.studyUid().equals(entry.studyUid()));
      if (seenAgain && !entry.scan().tables().isEmpty() && (nameless || entry.day().isEmpty())) {
        findings.add(
            new Finding(
                FindingKind.NOT_COMPARABLE,
                entry.scan().sighting().scan().document().location(),
                "the nerve is not compared: "
                    + (nameless
                        ? "the scan names no patient"
                        : "when the scan was made is not known")));
      }
    }
    return findings;
  }

  private static List<NerveGroup> of(Eye eye, NerveRole role, List<NerveBook.Entry> entries) {
    List<List<NerveBook.Entry>> groups = new ArrayList<>();
    entries.stream()
        .filter(entry -> table(entry, role).isPresent())
        .filter(entry -> role != NerveRole.CIRCLE || !entry.scan().offDisc())
        .sorted(Comparator.comparing(NerveBook.Entry::time).thenComparing(NerveBook.Entry::sopUid))
        .forEach(
            entry -> {
              Optional<List<NerveBook.Entry>> like =
                  groups.stream()
                      .filter(g -> alike(role, g.get(0), entry))
                      .filter(g -> g.stream().noneMatch(one -> CircleDistance.apart(one, entry)))
                      .findFirst();
              if (like.isPresent()) {
                like.get().add(entry);
              } else {
                groups.add(new ArrayList<>(List.of(entry)));
              }
            });
    return groups.stream().map(group -> new NerveGroup(eye, role, group)).toList();
  }

  private static boolean alike(NerveRole role, NerveBook.Entry a, NerveBook.Entry b) {
    return role == NerveRole.MACULA_VOLUME
        ? a.scan().zero().kind() == b.scan().zero().kind()
        : NerveBook.alike(a, b);
  }

  /** Returns whether repeats of another group of this role tell the noise of this one. */
  boolean sharesNoise(NerveGroup other) {
    NerveScan one = scans.get(0).scan();
    NerveScan two = other.scans.get(0).scan();
    return one.zero().kind() == two.zero().kind()
        && (role == NerveRole.MACULA_VOLUME
            || Math.abs(
                    one.profile().orElseThrow().diameterMm()
                        - two.profile().orElseThrow().diameterMm())
                <= NOISE_DIAMETERS_APART_MM);
  }

  /** Returns what stands in tables of a scan in a role, or empty when it was not taken for it. */
  static Optional<NerveTable> table(NerveBook.Entry entry, NerveRole role) {
    return entry.scan().tables().stream()
        .filter(table -> table.role().equals(role.code()))
        .findFirst();
  }

  NerveTable table(NerveBook.Entry entry) {
    return table(entry, role).orElseThrow();
  }

  /** Returns the first scan of each study whose whole was measured, or the first if none was. */
  List<NerveBook.Entry> visits() {
    Map<String, NerveBook.Entry> first = new LinkedHashMap<>();
    for (NerveBook.Entry entry : scans) {
      NerveBook.Entry taken = first.putIfAbsent(entry.studyUid(), entry);
      if (taken != null && !whole(taken) && whole(entry)) {
        first.put(entry.studyUid(), entry);
      }
    }
    return List.copyOf(first.values());
  }

  /** Whether the first value of the role's table is there: that of the whole circle or annulus. */
  private boolean whole(NerveBook.Entry entry) {
    return table(entry).values().stream().findFirst().flatMap(NerveGroup::present).isPresent();
  }

  private static Optional<NerveValue> present(NerveValue value) {
    return value.value().isPresent() ? Optional.of(value) : Optional.empty();
  }

  /** Returns pairs of repeats of one day: the first with the second, the third with the fourth. */
  List<List<NerveBook.Entry>> repeats() {
    Map<Object, List<NerveBook.Entry>> days = new LinkedHashMap<>();
    scans.forEach(entry -> days.computeIfAbsent(entry.day(), day -> new ArrayList<>()).add(entry));
    List<List<NerveBook.Entry>> pairs = new ArrayList<>();
    for (List<NerveBook.Entry> day : days.values()) {
      for (int i = 0; i + 1 < day.size(); i += 2) {
        if (!copies(day.get(i), day.get(i + 1))) {
          pairs.add(List.of(day.get(i), day.get(i + 1)));
        }
      }
    }
    return pairs;
  }

  /** The very same numbers are a copy, which says nothing of repeating a scan. */
  private boolean copies(NerveBook.Entry a, NerveBook.Entry b) {
    return table(a).values().stream()
        .map(NerveValue::value)
        .toList()
        .equals(table(b).values().stream().map(NerveValue::value).toList());
  }

  /** Returns every value that any scan has a row of, in the order of tables. */
  List<NerveKey> keys() {
    Set<NerveKey> keys = new LinkedHashSet<>();
    scans.forEach(entry -> table(entry).values().forEach(value -> keys.add(value.key())));
    return List.copyOf(keys);
  }

  /** Returns the values in µm that are judged together: each whole alone, the arcs of a scheme. */
  List<List<NerveKey>> families() {
    Map<String, List<NerveKey>> families = new LinkedHashMap<>();
    for (NerveKey key : keys()) {
      if (key.measure().unit().equals("um")) {
        families
            .computeIfAbsent(
                key.measure() + " " + key.layer() + " " + key.scheme(), name -> new ArrayList<>())
            .add(key);
      }
    }
    return List.copyOf(families.values());
  }

  /** Returns calendar days between two scans. */
  static long days(NerveBook.Entry from, NerveBook.Entry to) {
    return ChronoUnit.DAYS.between(from.day().orElseThrow(), to.day().orElseThrow());
  }

  /** Returns a profile as an array; NaN where it has no value. */
  static double[] profile(NerveBook.Entry entry) {
    CircleProfile profile = entry.scan().profile().orElseThrow();
    double[] values = new double[profile.samples()];
    for (int i = 0; i < values.length; i++) {
      values[i] = profile.thicknessUm(i);
    }
    return values;
  }
}
