package org.isopach.report.table;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * The quality of one scan, for the table.
 *
 * @param scan which scan
 * @param laterality which eye; empty when not known
 * @param quality how good it is
 * @param fovea the foveal pit in the coordinates of the scan's path; empty when not found
 * @param disc the optic disc or the part of it in view, likewise
 * @param flags what was said about it, in the order it was said
 */
public record GradedScan(
    ScanIdentity scan,
    Optional<Laterality> laterality,
    ScanQuality quality,
    Optional<Landmark> fovea,
    Optional<OpticDisc> disc,
    List<FindingKind> flags) {
  public GradedScan {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(laterality, "laterality");
    Objects.requireNonNull(quality, "quality");
    Objects.requireNonNull(fovea, "fovea");
    Objects.requireNonNull(disc, "disc");
    flags = List.copyOf(flags);
  }

  /** Returns the angle of the fovea and the disc in degrees; empty when either is not known. */
  OptionalDouble foveaDiscAngle() {
    if (fovea.isEmpty() || disc.isEmpty() || laterality.isEmpty()) {
      return OptionalDouble.empty();
    }
    return disc.get().angleDegrees(fovea.get().point(), laterality.get());
  }
}
