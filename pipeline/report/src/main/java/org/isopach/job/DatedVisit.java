package org.isopach.job;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.scan.OctScan;

/**
 * One visit of a series: the scans of an eye in one study that say when they were made.
 *
 * @param date date of the earliest of them
 * @param scans the one that stands for the visit first, then what may stand in for it
 */
record DatedVisit(LocalDate date, List<OctScan> scans) {
  DatedVisit {
    Objects.requireNonNull(date, "date");
    scans = List.copyOf(scans);
  }

  /**
   * Returns an eye's dated visits, the earliest first. For each visit stands the scan whose pattern
   * is most like those of all the eye's scans together, so that like is compared with like.
   */
  static List<DatedVisit> of(EyeVisits eye) {
    List<OctScan> all =
        eye.visits().stream()
            .flatMap(visit -> visit.scans().stream())
            .filter(DatedVisit::usable)
            .toList();
    Optional<OctScan> typical =
        all.stream().min(Comparator.comparingDouble(one -> unlikenessToAll(one, all)));
    List<DatedVisit> visits = new ArrayList<>();
    for (Visit visit : eye.visits()) {
      List<OctScan> dated =
          visit.scans().stream().filter(scan -> scan.identity().acquired().isPresent()).toList();
      if (!dated.isEmpty()) {
        visits.add(new DatedVisit(visit.time().toLocalDate(), inOrder(dated, typical)));
      }
    }
    return visits;
  }

  /** Returns when the earliest of its scans was made. */
  LocalDateTime time() {
    return scans.stream()
        .map(scan -> scan.identity().acquired().orElseThrow())
        .min(Comparator.naturalOrder())
        .orElseThrow();
  }

  private static List<OctScan> inOrder(List<OctScan> scans, Optional<OctScan> typical) {
    return scans.stream()
        .sorted(Comparator.comparingDouble(scan -> unlikeness(scan, typical)))
        .toList();
  }

  private static double unlikeness(OctScan scan, Optional<OctScan> typical) {
    return usable(scan) && typical.isPresent()
        ? EyeChanges.unlikeness(scan, typical.get())
        : Double.POSITIVE_INFINITY;
  }

  private static double unlikenessToAll(OctScan scan, List<OctScan> all) {
    return all.stream().mapToDouble(other -> EyeChanges.unlikeness(scan, other)).sum();
  }

  private static boolean usable(OctScan scan) {
    return scan.identity().acquired().isPresent() && GridObstacle.of(scan).isEmpty();
  }
}
