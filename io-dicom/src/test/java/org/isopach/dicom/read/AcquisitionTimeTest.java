package org.isopach.dicom.read;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.dicom.data.Dataset;
import org.isopach.dicom.data.Tags;
import org.isopach.dicom.data.Vr;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Dates and times by DICOM PS3.5, table 6.2-1 (DA, DT, TM), and the order they are tried in. */
class AcquisitionTimeTest {
  @ParameterizedTest
  @CsvSource({
    "20250314101530.250000+0100, 2025-03-14T10:15:30.250",
    "20250314101530.5-0500,      2025-03-14T10:15:30.500",
    "20250314101530,             2025-03-14T10:15:30",
    "202503141015,               2025-03-14T10:15:00",
    "2025031410,                 2025-03-14T10:00:00",
    "20250314,                   2025-03-14T00:00:00",
    "20250314+0100,              2025-03-14T00:00:00",
    "20240229235960,             2024-02-29T23:59:59",
  })
  void dateTimes(String text, LocalDateTime expected) {
    Dataset object = Dataset.builder().text(Tags.ACQUISITION_DATETIME, Vr.DT, text).build();
    assertTime(Optional.of(expected), object);
  }

  @ParameterizedTest
  @CsvSource({"2025", "202503", "20250229", "20251301", "20250314256060", "yesterday", "2025-3-14"})
  void unusableDateTimes(String text) {
    Dataset object = Dataset.builder().text(Tags.ACQUISITION_DATETIME, Vr.DT, text).build();
    assertTime(Optional.empty(), object, FindingKind.DATE_UNKNOWN);
  }

  @Test
  void orderOfTrying() {
    Dataset.Builder builder =
        Dataset.builder()
            .text(Tags.STUDY_DATE, Vr.DA, "20250104")
            .text(Tags.STUDY_TIME, Vr.TM, "0400");
    assertTime(Optional.of(LocalDateTime.of(2025, 1, 4, 4, 0)), builder.build());
    builder.text(Tags.CONTENT_DATE, Vr.DA, "20250103").text(Tags.CONTENT_TIME, Vr.TM, "03");
    assertTime(Optional.of(LocalDateTime.of(2025, 1, 3, 3, 0)), builder.build());
    builder
        .text(Tags.ACQUISITION_DATE, Vr.DA, "2025.01.02")
        .text(Tags.ACQUISITION_TIME, Vr.TM, "02:00:01.5");
    assertTime(Optional.of(LocalDateTime.of(2025, 1, 2, 2, 0, 1, 500_000_000)), builder.build());
    builder.text(Tags.ACQUISITION_DATETIME, Vr.DT, "20250101010000");
    assertTime(Optional.of(LocalDateTime.of(2025, 1, 1, 1, 0)), builder.build());
  }

  @Test
  void emptyAndUnusableOnesAreLeftForTheNext() {
    Dataset object =
        Dataset.builder()
            .text(Tags.ACQUISITION_DATETIME, Vr.DT)
            .text(Tags.CONTENT_DATE, Vr.DA, "00000000")
            .text(Tags.STUDY_DATE, Vr.DA, "20250104")
            .text(Tags.STUDY_TIME, Vr.TM, "4 pm")
            .build();
    assertTime(
        Optional.of(LocalDateTime.of(2025, 1, 4, 0, 0)), object, FindingKind.ATTRIBUTE_IGNORED);
  }

  private static void assertTime(
      Optional<LocalDateTime> expected, Dataset object, FindingKind... findings) {
    Remarks remarks = new Remarks("object");
    assertEquals(expected, AcquisitionTime.read(object, remarks));
    assertEquals(List.of(findings), remarks.findings().stream().map(f -> f.kind()).toList());
  }
}
