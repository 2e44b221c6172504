package org.isopach.job;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.ProfileSource;

/**
 * The scans of the nerve of a run, by eye, light enough to keep them all: which profiles may be
 * drawn and compared together.
 */
final class NerveBook {
  /** Circles whose diameters differ by more are not compared, mm; ours. */
  static final double DIAMETERS_APART_MM = 0.1;

  private static final Comparator<Entry> IN_TIME =
      Comparator.comparing(Entry::time).thenComparing(Entry::sopUid);

  private final List<Entry> entries = new ArrayList<>();

  /** A scan with its eye. */
  record Entry(Eye eye, NerveScan scan) {
    LocalDateTime time() {
      return scan.sighting().scan().identity().acquired().orElse(LocalDateTime.MAX);
    }

    Optional<LocalDate> day() {
      return scan.sighting().scan().identity().acquired().map(LocalDateTime::toLocalDate);
    }

    String sopUid() {
      return scan.sighting().scan().identity().sopUid();
    }

    String studyUid() {
      return scan.sighting().scan().identity().studyUid();
    }
  }

  void add(Eye eye, NerveScan scan) {
    entries.add(new Entry(eye, scan.light()));
  }

  /** Returns all scans with a profile, in the order in which they came. */
  List<Entry> profiles() {
    return entries.stream().filter(entry -> entry.scan().profile().isPresent()).toList();
  }

  /** Returns all scans, in the order in which they came. */
  List<Entry> all() {
    return List.copyOf(entries);
  }

  /**
   * Returns the eye's profiles of earlier visits round the disc, of each visit the first, the
   * latest ahead.
   */
  List<Entry> earlier(Entry one) {
    Map<String, Entry> first = new LinkedHashMap<>();
    profiles().stream()
        .filter(other -> other.eye().equals(one.eye()) && !one.eye().patientId().isEmpty())
        .filter(other -> other.day().isPresent() && one.day().isPresent())
        .filter(other -> other.time().isBefore(one.time()))
        .filter(other -> !other.studyUid().equals(one.studyUid()))
        .filter(other -> !other.scan().offDisc())
        .filter(other -> alike(one, other) && !CircleDistance.apart(one, other))
        .sorted(IN_TIME)
        .forEach(other -> first.putIfAbsent(other.studyUid(), other));
    return first.values().stream().sorted(IN_TIME.reversed()).toList();
  }

  /** Returns the profile of the patient's other eye of the same study, else of the same day. */
  Optional<Entry> otherEye(Entry one) {
    List<Entry> others =
        profiles().stream()
            .filter(other -> isOther(one.eye(), other.eye()) && alike(one, other))
            .filter(other -> !other.scan().offDisc())
            .toList();
    return others.stream()
        .filter(other -> other.studyUid().equals(one.studyUid()))
        .findFirst()
        .or(
            () ->
                others.stream()
                    .filter(other -> one.day().isPresent() && one.day().equals(other.day()))
                    .findFirst());
  }

  private static boolean isOther(Eye eye, Eye other) {
    return !eye.patientId().isEmpty()
        && eye.patientId().equals(other.patientId())
        && eye.issuer().equals(other.issuer())
        && eye.laterality() != other.laterality();
  }

  /** A circle scan goes with a circle scan, a volume with a volume, of one diameter. */
  static boolean alike(Entry a, Entry b) {
    CircleProfile one = a.scan().profile().orElseThrow();
    CircleProfile other = b.scan().profile().orElseThrow();
    return one.source() == other.source()
        && one.zero().kind() == other.zero().kind()
        && (one.source() == ProfileSource.RESAMPLED
            ? one.diameterMm() == other.diameterMm()
            : Math.abs(one.diameterMm() - other.diameterMm()) <= DIAMETERS_APART_MM);
  }
}
