package org.isopach.segment;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.HeightMap;
import org.isopach.analysis.quality.ScanQuality;

/**
 * What was found in a scan of the optic nerve.
 *
 * @param boundaries the boundaries, or empty when the scan shows no measurable retina; a finding
 *     then says why. Inside of the opening only the ILM has depths
 * @param opening the opening of Bruch's membrane, in the coordinates of the scan's path; empty for
 *     circles and lines, and where it was not seen, which a finding then says
 * @param innerSurface height of the ILM over the disc and its surroundings in µm, by the same level
 *     as the opening's heights; there when the opening is
 * @param fovea the foveal pit, where the scan reaches it
 * @param findings what there is to say about the scan
 * @param quality how good the scan and its frames are
 */
public record NerveLook(
    Optional<BoundarySet> boundaries,
    Optional<DiscOpening> opening,
    Optional<HeightMap> innerSurface,
    Optional<Landmark> fovea,
    List<Finding> findings,
    ScanQuality quality) {
  public NerveLook {
    Objects.requireNonNull(boundaries, "boundaries");
    Objects.requireNonNull(opening, "opening");
    Objects.requireNonNull(innerSurface, "innerSurface");
    Objects.requireNonNull(fovea, "fovea");
    findings = List.copyOf(findings);
    Objects.requireNonNull(quality, "quality");
  }
}
