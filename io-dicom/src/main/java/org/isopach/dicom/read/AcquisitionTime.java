package org.isopach.dicom.read;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;

/**
 * When an object was made, in the local time of the instrument: the first usable of Acquisition
 * DateTime, Acquisition Date and Time, Content Date and Time, Study Date and Time.
 *
 * <p>An offset from UTC at the end of a date-time is left out: the time before it is the local one
 * (DICOM PS3.5, table 6.2-1, DT). A value must be precise to the day; without a time of day the
 * start of the day is taken. Fractions of a second are kept.
 */
final class AcquisitionTime {
  private static final Pattern DATE_TIME =
      Pattern.compile("(\\d{8})(\\d{2}(?:\\d{2}(?:\\d{2}(?:\\.\\d{1,6})?)?)?)?(?:[+-]\\d{4})?");
  private static final Pattern DATE = Pattern.compile("(\\d{4})\\.?(\\d{2})\\.?(\\d{2})");
  private static final Pattern TIME =
      Pattern.compile("(\\d{2})(?::?(\\d{2})(?::?(\\d{2})(?:\\.(\\d{1,6}))?)?)?");

  private final Dataset object;
  private final List<String> unusable = new ArrayList<>();

  private AcquisitionTime(Dataset object) {
    this.object = object;
  }

  /** Returns the time; without one, a DATE_UNKNOWN finding. */
  static Optional<LocalDateTime> read(Dataset object, Remarks remarks) {
    AcquisitionTime reader = new AcquisitionTime(object);
    Optional<LocalDateTime> time =
        reader
            .dateTime(Tags.ACQUISITION_DATETIME)
            .or(() -> reader.pair(Tags.ACQUISITION_DATE, Tags.ACQUISITION_TIME))
            .or(() -> reader.pair(Tags.CONTENT_DATE, Tags.CONTENT_TIME))
            .or(() -> reader.pair(Tags.STUDY_DATE, Tags.STUDY_TIME));
    String not = String.join(", ", reader.unusable);
    if (time.isEmpty()) {
      remarks.add(
          FindingKind.DATE_UNKNOWN, not.isEmpty() ? "no date is stated" : "no usable date: " + not);
    } else if (!not.isEmpty()) {
      remarks.add(FindingKind.ATTRIBUTE_IGNORED, "not a usable date or time: " + not);
    }
    return time;
  }

  private Optional<LocalDateTime> dateTime(int tag) {
    Optional<String> text = object.text(tag);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    Matcher matcher = DATE_TIME.matcher(text.get());
    if (!matcher.matches()) {
      return refuse(tag, text.get());
    }
    Optional<LocalDate> date = date(matcher.group(1));
    Optional<LocalTime> time =
        matcher.group(2) == null ? Optional.of(LocalTime.MIDNIGHT) : time(matcher.group(2));
    return date.isPresent() && time.isPresent()
        ? Optional.of(date.get().atTime(time.get()))
        : refuse(tag, text.get());
  }

  private Optional<LocalDateTime> pair(int dateTag, int timeTag) {
    Optional<String> text = object.text(dateTag);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    Optional<LocalDate> date = date(text.get());
    if (date.isEmpty()) {
      return refuse(dateTag, text.get());
    }
    Optional<String> timeText = object.text(timeTag);
    Optional<LocalTime> time = timeText.flatMap(AcquisitionTime::time);
    if (timeText.isPresent() && time.isEmpty()) {
      unusable.add(Tag.name(timeTag) + " \"" + timeText.get() + "\"");
    }
    return Optional.of(date.get().atTime(time.orElse(LocalTime.MIDNIGHT)));
  }

  private Optional<LocalDateTime> refuse(int tag, String text) {
    unusable.add(Tag.name(tag) + " \"" + text + "\"");
    return Optional.empty();
  }

  /**
   * Returns the day a DA value names, also in the form with full stops; empty when it names none.
   */
  static Optional<LocalDate> date(String text) {
    Matcher m = DATE.matcher(text);
    if (!m.matches()) {
      return Optional.empty();
    }
    try {
      return Optional.of(LocalDate.of(number(m, 1), number(m, 2), number(m, 3)));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static Optional<LocalTime> time(String text) {
    Matcher m = TIME.matcher(text);
    if (!m.matches()) {
      return Optional.empty();
    }
    String fraction = m.group(4) == null ? "0" : (m.group(4) + "000000000").substring(0, 9);
    try {
      int second = Math.min(number(m, 3), 59);
      return Optional.of(
          LocalTime.of(number(m, 1), number(m, 2), second, Integer.parseInt(fraction)));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static int number(Matcher matcher, int group) {
    return matcher.group(group) == null ? 0 : Integer.parseInt(matcher.group(group));
  }
}
