package org.isopach.cli.accuracy;

import java.util.List;
import java.util.Objects;

/**
 * What was done with one eye.
 *
 * @param score errors of its first scan
 * @param rescan errors of the change found in a second scan without any change; empty when not done
 * @param swelling errors of the change found in a second scan with a known swelling
 * @param refusals why a change was refused altogether
 */
record EyeStudy(
    ScanScore score, List<PlaceError> rescan, List<PlaceError> swelling, List<String> refusals) {
  EyeStudy {
    Objects.requireNonNull(score, "score");
    rescan = List.copyOf(rescan);
    swelling = List.copyOf(swelling);
    refusals = List.copyOf(refusals);
  }
}
