package org.isopach.analysis.change;

import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.ScanIdentity;

/** Whether two visits may be compared at all. */
final class Comparability {
  /** Indexes are stated to three decimals at most. */
  private static final double SAME_INDEX = 5e-4;

  private Comparability() {}

  /** Returns the gravest obstacle to comparing two visits, or empty. */
  static Optional<VisitChange.Refused> obstacle(VisitMap baseline, VisitMap followUp) {
    ThicknessMap before = baseline.map();
    ThicknessMap after = followUp.map();
    Optional<VisitChange.Refused> identity = identityObstacle(before.scan(), after.scan());
    if (identity.isPresent()) {
      return identity;
    }
    if (before.laterality() != after.laterality()) {
      return refuse(
          VisitChange.Reason.DIFFERENT_LATERALITY,
          "the baseline is of the "
              + before.laterality().word()
              + " eye, the follow-up of the "
              + after.laterality().word());
    }
    if (!before.layer().equals(after.layer())) {
      return refuse(
          VisitChange.Reason.DIFFERENT_LAYER,
          "the baseline is " + before.layer().name() + ", the follow-up " + after.layer().name());
    }
    if (!sameIndex(baseline.axial().refractiveIndex(), followUp.axial().refractiveIndex())) {
      return refuse(
          VisitChange.Reason.DIFFERENT_REFRACTIVE_INDEX,
          "the baseline rests on the refractive index "
              + word(baseline.axial().refractiveIndex())
              + ", the follow-up on "
              + word(followUp.axial().refractiveIndex()));
    }
    if (!before.lattice().equals(after.lattice())) {
      return refuse(
          VisitChange.Reason.DIFFERENT_LATTICE,
          "the baseline lies on " + before.lattice() + ", the follow-up on " + after.lattice());
    }
    return placeObstacle(before, after);
  }

  private static Optional<VisitChange.Refused> placeObstacle(
      ThicknessMap before, ThicknessMap after) {
    if (new DifferenceMap(before, after).coveredFraction() == 0) {
      return refuse(
          VisitChange.Reason.NO_COMMON_PLACE,
          "no place round the centre has a thickness at both visits; the fields do not overlap");
    }
    if (before.layer().equals(Layer.ILM_BM) && Sidedness.opposite(before, after)) {
      return refuse(
          VisitChange.Reason.LOOKS_MIRRORED,
          "one looks like the mirror image of the other, as scans of two eyes do; check which eye"
              + " each is of");
    }
    return Optional.empty();
  }

  private static Optional<VisitChange.Refused> identityObstacle(
      ScanIdentity before, ScanIdentity after) {
    if (before.sopUid().equals(after.sopUid())) {
      return refuse(
          VisitChange.Reason.SAME_OBJECT, "both visits are the object " + before.sopUid());
    }
    if (before.patientId().isEmpty() || after.patientId().isEmpty()) {
      return refuse(
          VisitChange.Reason.UNKNOWN_PATIENT, "a change needs the patient's identifier twice");
    }
    if (!before.patientId().equals(after.patientId())) {
      return refuse(
          VisitChange.Reason.DIFFERENT_PATIENT,
          "the baseline is of patient "
              + before.patientId()
              + ", the follow-up of "
              + after.patientId());
    }
    if (!before.patientIdIssuer().isEmpty()
        && !after.patientIdIssuer().isEmpty()
        && !before.patientIdIssuer().equals(after.patientIdIssuer())) {
      return refuse(
          VisitChange.Reason.DIFFERENT_PATIENT,
          "the patient identifier was issued by "
              + before.patientIdIssuer()
              + " for the baseline, by "
              + after.patientIdIssuer()
              + " for the follow-up");
    }
    return Optional.empty();
  }

  private static boolean sameIndex(OptionalDouble a, OptionalDouble b) {
    if (a.isEmpty() || b.isEmpty()) {
      return a.isEmpty() && b.isEmpty();
    }
    return Math.abs(a.getAsDouble() - b.getAsDouble()) < SAME_INDEX;
  }

  private static String word(OptionalDouble index) {
    return index.isPresent() ? Double.toString(index.getAsDouble()) : "(not stated)";
  }

  private static Optional<VisitChange.Refused> refuse(VisitChange.Reason reason, String detail) {
    return Optional.of(new VisitChange.Refused(reason, detail));
  }
}
