package org.isopach.segment;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionLabels;

/**
 * What was found in one scan.
 *
 * @param boundaries the boundaries, or empty when the scan shows no measurable retina; a finding
 *     then says why
 * @param fovea the foveal pit, in the coordinates of the scan's path; empty when none was found or
 *     the scan has no path or no area
 * @param regions fluid and other regions; which kinds and frames were looked at is said there
 * @param disc the optic disc or the part of it in view, in the same coordinates; empty when none
 *     was found or the frames are no raster
 * @param findings what there is to say about the scan
 * @param quality how good the scan and its frames are; of a refused scan, the signal of its frames
 */
public record SegmentationResult(
    Optional<BoundarySet> boundaries,
    Optional<Landmark> fovea,
    Optional<OpticDisc> disc,
    RegionLabels regions,
    List<Finding> findings,
    ScanQuality quality) {
  public SegmentationResult {
    Objects.requireNonNull(boundaries, "boundaries");
    Objects.requireNonNull(fovea, "fovea");
    Objects.requireNonNull(disc, "disc");
    Objects.requireNonNull(regions, "regions");
    findings = List.copyOf(findings);
    Objects.requireNonNull(quality, "quality");
  }
}
