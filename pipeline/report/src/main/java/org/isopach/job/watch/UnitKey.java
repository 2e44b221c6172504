package org.isopach.job.watch;

import java.util.Comparator;
import java.util.Objects;
import org.isopach.job.RunFolder;

/**
 * What is worked on together: one patient's study, or all studies of a patient.
 *
 * @param patientId Patient ID (0010,0020), empty when not stated
 * @param studyUid Study Instance UID (0020,000D), empty for all studies of the patient
 */
public record UnitKey(String patientId, String studyUid) implements Comparable<UnitKey> {
  private static final Comparator<UnitKey> ORDER =
      Comparator.comparing(UnitKey::patientId).thenComparing(UnitKey::studyUid);

  public UnitKey {
    Objects.requireNonNull(patientId, "patientId");
    Objects.requireNonNull(studyUid, "studyUid");
  }

  /**
   * Returns what an object belongs to. Studies of nobody are never put together.
   *
   * @param byPatient whether a patient's studies are worked on together
   */
  static UnitKey of(String patientId, String studyUid, boolean byPatient) {
    return new UnitKey(patientId, byPatient && !patientId.isEmpty() ? "" : studyUid);
  }

  /** Returns the folder it would like to have; another one may have it already. */
  String wishedName() {
    return studyUid.isEmpty() ? RunFolder.nameOfId(patientId) : RunFolder.nameOfUid(studyUid);
  }

  /** Returns it in words. */
  public String words() {
    String patient = patientId.isEmpty() ? "no stated patient" : "patient " + patientId;
    return studyUid.isEmpty() ? patient : "study " + studyUid + " of " + patient;
  }

  @Override
  public int compareTo(UnitKey other) {
    return ORDER.compare(this, other);
  }
}
