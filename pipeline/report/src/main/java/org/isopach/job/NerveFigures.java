package org.isopach.job;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.RimProfile;

/**
 * What one scan shows of the nerve by itself, angles counted from the horizontal, lengths in mm of
 * the scan's path.
 *
 * @param profile nerve fibre layer along the circle that was scanned or laid into the volume
 * @param opening of Bruch's membrane, in a volume
 * @param rim its least widths
 * @param foveaDiscDegrees of the line from the fovea to the disc against the horizontal, positive
 *     where the disc lies higher; empty where either is not in the scan
 * @param findings what there is to say
 */
public record NerveFigures(
    Optional<CircleProfile> profile,
    Optional<DiscOpening> opening,
    Optional<RimProfile> rim,
    OptionalDouble foveaDiscDegrees,
    List<Finding> findings) {
  public NerveFigures {
    Objects.requireNonNull(profile, "profile");
    Objects.requireNonNull(opening, "opening");
    Objects.requireNonNull(rim, "rim");
    Objects.requireNonNull(foveaDiscDegrees, "foveaDiscDegrees");
    findings = List.copyOf(findings);
  }

  static NerveFigures of(NerveSighting sighting) {
    return new NerveFigures(
        sighting.circle().map(CircleSight::profile),
        sighting.disc().map(DiscSight::opening),
        sighting.disc().map(DiscSight::rim),
        new NervePlaces(List.of(sighting)).foveaDiscDegrees(sighting),
        sighting.findings());
  }
}
