package org.isopach.analysis.scan;

import java.time.LocalDateTime;
import java.util.Objects;
import java.util.Optional;

/**
 * Who, when and which object a scan is.
 *
 * @param patientId as the archive gives it; empty when absent
 * @param studyUid study instance UID
 * @param seriesUid series instance UID
 * @param sopUid SOP instance UID
 * @param acquired when the scan was made, local time of the instrument; empty when not stated
 * @param patientIdIssuer who gave the patient identifier; empty when not stated
 */
public record ScanIdentity(
    String patientId,
    String studyUid,
    String seriesUid,
    String sopUid,
    Optional<LocalDateTime> acquired,
    String patientIdIssuer) {
  public ScanIdentity {
    Objects.requireNonNull(patientId, "patientId");
    Objects.requireNonNull(studyUid, "studyUid");
    Objects.requireNonNull(seriesUid, "seriesUid");
    Objects.requireNonNull(sopUid, "sopUid");
    Objects.requireNonNull(acquired, "acquired");
    Objects.requireNonNull(patientIdIssuer, "patientIdIssuer");
  }

  /** Makes an identity whose patient identifier has no stated issuer. */
  public ScanIdentity(
      String patientId,
      String studyUid,
      String seriesUid,
      String sopUid,
      Optional<LocalDateTime> acquired) {
    this(patientId, studyUid, seriesUid, sopUid, acquired, "");
  }
}
