package org.isopach.job;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.normal.NormalEye;
import org.isopach.analysis.normal.NormalLimits;
import org.isopach.report.table.NerveTable;

/**
 * What was measured of one scan as a scan of the nerve, the other scans of the visit taken into
 * account.
 *
 * @param sighting what the scan shows by itself
 * @param zero what angles are counted from
 * @param profile the nerve fibre profile, its angles counted from there
 * @param tables one for each role the scan was taken in
 * @param eye what normal limits depend on
 * @param limits the reference group's distribution in each quadrant; empty where none fits
 * @param findings what there is to say, beyond what the sighting says
 */
record NerveScan(
    NerveSighting sighting,
    AngleZero zero,
    Optional<CircleProfile> profile,
    List<NerveTable> tables,
    NormalEye eye,
    List<Optional<NormalLimits>> limits,
    List<Finding> findings) {
  NerveScan {
    Objects.requireNonNull(sighting, "sighting");
    Objects.requireNonNull(zero, "zero");
    Objects.requireNonNull(profile, "profile");
    tables = List.copyOf(tables);
    Objects.requireNonNull(eye, "eye");
    limits = List.copyOf(limits);
    findings = List.copyOf(findings);
  }

  /** Returns whether the scan gave any number of the nerve itself. */
  boolean measuresNerve() {
    return sighting.showsNerve() && tables.stream().anyMatch(NerveTable::anyValue);
  }

  /** Returns whether the circle does not lie round the disc. */
  boolean offDisc() {
    return said(FindingKind.CIRCLE_OFF_DISC).isPresent();
  }

  /** Returns how far the circle lies from where it should, where that is worth a word. */
  Optional<String> shifted() {
    return said(FindingKind.CIRCLE_SHIFTED).or(() -> said(FindingKind.CIRCLES_APART));
  }

  /** Returns whether nothing told if the circle is centred on the disc. */
  boolean centringUnchecked() {
    return said(FindingKind.CIRCLE_NOT_CHECKED).isPresent();
  }

  private Optional<String> said(FindingKind kind) {
    return Stream.concat(sighting.findings().stream(), findings.stream())
        .filter(finding -> finding.kind() == kind)
        .map(Finding::detail)
        .findFirst();
  }

  /** Returns this without maps, for the time when only profile and numbers are needed. */
  NerveScan light() {
    return new NerveScan(sighting.light(), zero, profile, tables, eye, limits, findings);
  }
}
