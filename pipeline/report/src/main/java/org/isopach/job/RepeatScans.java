package org.isopach.job;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.scan.OctScan;

/**
 * Two scans of an eye on one calendar day in one pattern, between which the eye is taken not to
 * have changed.
 */
record RepeatScans(OctScan first, OctScan second) {
  private static final Comparator<OctScan> BY_TIME =
      Comparator.comparing((OctScan scan) -> scan.identity().acquired().orElse(LocalDateTime.MAX))
          .thenComparing(scan -> scan.identity().sopUid());

  private record Key(Eye eye, LocalDate day, ScanPattern pattern, int frames, int ascans) {}

  RepeatScans {
    Objects.requireNonNull(first, "first");
    Objects.requireNonNull(second, "second");
  }

  /**
   * Returns the pairs among some scans: of each eye, day and pattern the first with the second by
   * time, the third with the fourth; an odd one is left out.
   */
  static List<RepeatScans> among(List<OctScan> scans) {
    PatientIssuers issuers = PatientIssuers.of(scans);
    Map<Key, List<OctScan>> groups = new LinkedHashMap<>();
    for (OctScan scan : scans) {
      boolean usable =
          scan.laterality().isPresent()
              && scan.identity().acquired().isPresent()
              && !scan.identity().patientId().isEmpty()
              && scan.path().filter(MapInterpolator::canMap).isPresent();
      if (usable) {
        groups.computeIfAbsent(key(scan, issuers), key -> new ArrayList<>()).add(scan);
      }
    }
    List<RepeatScans> pairs = new ArrayList<>();
    for (List<OctScan> group : groups.values()) {
      group.sort(BY_TIME);
      for (int i = 0; i + 1 < group.size(); i += 2) {
        pairs.add(new RepeatScans(group.get(i), group.get(i + 1)));
      }
    }
    return pairs;
  }

  private static Key key(OctScan scan, PatientIssuers issuers) {
    return new Key(
        issuers.eye(scan.identity(), scan.laterality().orElseThrow()),
        scan.identity().acquired().orElseThrow().toLocalDate(),
        scan.path().orElseThrow().pattern(),
        scan.size().frames(),
        scan.size().ascans());
  }
}
