package org.isopach.analysis.repeat;

import java.util.List;
import java.util.Objects;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The scans of one eye that are repeats of each other.
 *
 * @param number in the study, from 1
 * @param eye the eye
 * @param repeats the scans that were taken for repeats, the earliest first; at least two
 */
public record RepeatSession(int number, Eye eye, List<ScanIdentity> repeats) {
  public RepeatSession {
    Objects.requireNonNull(eye, "eye");
    repeats = List.copyOf(repeats);
  }
}
