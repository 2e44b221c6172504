package org.isopach.analysis.scan;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Objects;

/**
 * When the patient was born, as an object states it.
 *
 * @param date the day
 */
public record BirthDate(LocalDate date) {
  /** Days in a year, here and wherever ages and slopes are reckoned in years. */
  public static final double DAYS_PER_YEAR = 365.25;

  public BirthDate {
    Objects.requireNonNull(date, "date");
  }

  /** Returns the age on a day in years of 365.25 days; negative before birth. */
  public double ageYearsAt(LocalDate day) {
    return ChronoUnit.DAYS.between(date, day) / DAYS_PER_YEAR;
  }
}
