package org.isopach.report.table;

import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * What a table's rows are known and ordered by: patient, eye (right first), time (unknown last),
 * object, layer.
 */
record ScanKey(ScanIdentity scan, Laterality laterality, Layer layer) {
  static final Comparator<ScanKey> ORDER =
      Comparator.comparing((ScanKey key) -> key.scan.patientId())
          .thenComparing(ScanKey::laterality)
          .thenComparing(key -> timeOrLast(key.scan))
          .thenComparing(key -> key.scan.sopUid())
          .thenComparing(key -> key.layer.name());

  static final List<String> COLUMNS =
      List.of(
          "patient_id", "study_uid", "series_uid", "sop_uid", "acquired", "laterality", "layer");

  private static final DateTimeFormatter SECONDS =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss", Locale.ROOT);

  List<String> cells() {
    return List.of(
        scan.patientId(),
        scan.studyUid(),
        scan.seriesUid(),
        scan.sopUid(),
        time(scan.acquired()),
        laterality.code(),
        layer.name());
  }

  /** Returns when a scan was made; an unknown time comes last. */
  static LocalDateTime timeOrLast(ScanIdentity scan) {
    return scan.acquired().orElse(LocalDateTime.MAX);
  }

  static String time(Optional<LocalDateTime> acquired) {
    return acquired.map(SECONDS::format).orElse("");
  }
}
