package org.isopach.dicom.read;

import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.scan.OctScan;
import org.isopach.analysis.scan.ScanIdentity;
import org.isopach.dicom.DerivedObject;

/**
 * The order of scans and maps: patient, eye (right, left, unknown), time (unknown last), UID,
 * place.
 */
record SortKey(String patient, int eye, LocalDateTime time, String uid, String location)
    implements Comparable<SortKey> {
  private static final Comparator<SortKey> ORDER =
      Comparator.comparing(SortKey::patient)
          .thenComparing(SortKey::eye)
          .thenComparing(SortKey::time)
          .thenComparing(SortKey::uid)
          .thenComparing(SortKey::location);

  static SortKey of(OctScan scan) {
    return of(scan.identity(), scan.laterality(), scan.document().location());
  }

  static SortKey of(ThicknessMap map) {
    return of(map.scan(), Optional.of(map.laterality()), map.document().location());
  }

  static SortKey of(DerivedObject object) {
    return of(object.identity(), object.eyes().stream().findFirst(), object.location());
  }

  private static SortKey of(ScanIdentity identity, Optional<Laterality> eye, String location) {
    return new SortKey(
        identity.patientId(),
        eye.map(Laterality::ordinal).orElse(Integer.MAX_VALUE),
        identity.acquired().orElse(LocalDateTime.MAX),
        identity.sopUid(),
        location);
  }

  @Override
  public int compareTo(SortKey other) {
    return ORDER.compare(this, other);
  }
}
