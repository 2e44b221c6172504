package org.isopach.analysis.series;

import java.time.LocalDate;
import java.util.Objects;
import org.isopach.analysis.eye.Eye;

/**
 * A treatment of one eye, as somebody wrote it down.
 *
 * @param eye which eye
 * @param date the day
 * @param what in the writer's words
 */
public record TreatmentEvent(Eye eye, LocalDate date, String what) {
  public TreatmentEvent {
    Objects.requireNonNull(eye, "eye");
    Objects.requireNonNull(date, "date");
    Objects.requireNonNull(what, "what");
  }
}
