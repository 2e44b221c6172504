package org.isopach.report.table;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The quality of one scan, for the table.
 *
 * @param scan which scan
 * @param laterality which eye; empty when not known
 * @param quality how good it is
 * @param flags what was said about it, in the order it was said
 */
public record GradedScan(
    ScanIdentity scan,
    Optional<Laterality> laterality,
    ScanQuality quality,
    List<FindingKind> flags) {
  public GradedScan {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(quality, "quality");
    flags = List.copyOf(flags);
  }
}
