package org.isopach.job;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.OctScan;

/**
 * The scans of the two eyes of a patient that are laid on one another.
 *
 * @param right of the right eye
 * @param left of the left eye
 */
record EyePair(OctScan right, OctScan left) {
  EyePair {
    Objects.requireNonNull(right, "right");
    Objects.requireNonNull(left, "left");
  }

  /**
   * Returns the pairs among some eyes, by patient and time of the right eye. Visits belong together
   * by study, else by day; of several scans the two most like in pattern are taken, the first of
   * them where several are. Scans of patients without identifier are never paired.
   */
  static List<EyePair> among(List<EyeVisits> eyes) {
    List<EyePair> pairs = new ArrayList<>();
    for (EyeVisits right : eyes) {
      Optional<EyeVisits> left = eyes.stream().filter(other -> isOther(right, other)).findFirst();
      left.ifPresent(other -> pairs.addAll(of(right, other)));
    }
    return pairs;
  }

  private static boolean isOther(EyeVisits right, EyeVisits left) {
    if (right.eye().isEmpty() || left.eye().isEmpty()) {
      return false;
    }
    Eye eye = right.eye().get();
    return eye.laterality() == Laterality.RIGHT
        && !eye.patientId().isEmpty()
        && left.eye().get().equals(new Eye(eye.patientId(), eye.issuer(), Laterality.LEFT));
  }

  private static List<EyePair> of(EyeVisits right, EyeVisits left) {
    List<EyePair> pairs = new ArrayList<>();
    Set<String> taken = new HashSet<>();
    for (Visit visit : right.visits()) {
      Optional<Visit> sameStudy =
          left.visits().stream().filter(one -> one.studyUid().equals(visit.studyUid())).findFirst();
      Optional<Visit> other =
          sameStudy.or(
              () ->
                  left.visits().stream()
                      .filter(one -> !taken.contains(one.studyUid()) && sameDay(one, visit))
                      .filter(one -> right.visits().stream().noneMatch(r -> sameStudy(r, one)))
                      .findFirst());
      other.map(Visit::studyUid).ifPresent(taken::add);
      other.flatMap(one -> mostAlike(visit, one)).ifPresent(pairs::add);
    }
    return pairs;
  }

  private static boolean sameStudy(Visit a, Visit b) {
    return a.studyUid().equals(b.studyUid());
  }

  private static boolean sameDay(Visit a, Visit b) {
    LocalDate day = a.time().toLocalDate();
    return a.hasTime() && b.hasTime() && day.equals(b.time().toLocalDate());
  }

  private static Optional<EyePair> mostAlike(Visit right, Visit left) {
    return usable(right).stream()
        .flatMap(one -> usable(left).stream().map(other -> new EyePair(one, other)))
        .min(Comparator.comparingDouble(pair -> EyeChanges.unlikeness(pair.right, pair.left)));
  }

  private static List<OctScan> usable(Visit visit) {
    return visit.scans().stream().filter(scan -> GridObstacle.of(scan).isEmpty()).toList();
  }
}
