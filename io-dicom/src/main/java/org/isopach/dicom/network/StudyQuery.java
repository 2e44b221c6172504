package org.isopach.dicom.network;

import java.util.regex.Pattern;

/**
 * Which studies are asked for; empty texts ask for all.
 *
 * @param patientId the whole Patient ID; no wildcards, so that no other patient is met by chance
 * @param studyUid a Study Instance UID
 * @param dates a date or range such as {@code 20260101-20261231}
 */
public record StudyQuery(String patientId, String studyUid, String dates) {
  private static final int LONGEST_ID = 64;
  private static final Pattern DATES =
      Pattern.compile("|[0-9]{8}|[0-9]{8}-|-[0-9]{8}|[0-9]{8}-[0-9]{8}");

  /**
   * Checks the query.
   *
   * @throws IllegalArgumentException when it asks for everything or a key has another form
   */
  public StudyQuery {
    if (patientId.isEmpty() && studyUid.isEmpty() && dates.isEmpty()) {
      throw new IllegalArgumentException("say which studies: by patient, study or dates");
    }
    if (patientId.length() > LONGEST_ID || !patientId.matches("[\\x20-\\x7e&&[^\\\\*?]]*")) {
      throw new IllegalArgumentException(
          "a patient's number is at most 64 plain characters without *, ? and \\");
    }
    if (!studyUid.isEmpty() && !Uids.sound(studyUid)) {
      throw new IllegalArgumentException("'" + Printable.of(studyUid) + "' is not a UID");
    }
    if (!DATES.matcher(dates).matches()) {
      throw new IllegalArgumentException("dates are such as 20260131 or 20260101-20260131");
    }
  }

  /**
   * Returns whether a study is one of those asked for.
   *
   * @param patient its Patient ID without spaces around
   * @param study its Study Instance UID
   * @param date its Study Date, eight digits; a study without one fits no dates
   */
  public boolean fits(String patient, String study, String date) {
    boolean who = patientId.isEmpty() || patientId.strip().equals(patient);
    return who && (studyUid.isEmpty() || studyUid.equals(study)) && within(date);
  }

  private boolean within(String date) {
    if (dates.isEmpty()) {
      return true;
    }
    int dash = dates.indexOf('-');
    String from = dash < 0 ? dates : dates.substring(0, dash);
    String to = dash < 0 ? dates : dates.substring(dash + 1);
    return date.matches("[0-9]{8}")
        && (from.isEmpty() || date.compareTo(from) >= 0)
        && (to.isEmpty() || date.compareTo(to) <= 0);
  }

  Identifier keys() {
    return new Identifier()
        .with(Identifier.LEVEL, "STUDY")
        .with(Identifier.STUDY_DATE, dates)
        .with(Identifier.MODALITIES, "")
        .with(Identifier.PATIENT_ID, patientId)
        .with(Identifier.STUDY_UID, studyUid)
        .with(Identifier.INSTANCES, "");
  }
}
