package org.isopach.job;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.OpticDisc;
import org.isopach.analysis.quality.ScanQuality;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.scan.OctScan;

/**
 * What was measured in one scan, before any of it is written.
 *
 * @param scan the scan
 * @param boundaries what was found in it; empty when no retina was recognised
 * @param place the scan's path and centre in the mm that maps are made in; empty when no map is
 * @param layers one entry for each layer mapped, in the order asked for
 * @param labels fluid and other regions, voxel by voxel
 * @param regions their sizes, one table for each kind looked for; empty without boundaries
 * @param findings what there is to say, beyond what reading said
 * @param quality how good it is, frame by frame
 * @param fovea the foveal pit in the coordinates of the scan's own path; empty when not found
 * @param disc the optic disc, likewise
 * @param segmentNanos time taken by segmentation
 * @param mapNanos time taken by maps and sectors
 */
public record MeasuredScan(
    OctScan scan,
    Optional<BoundarySet> boundaries,
    Optional<Place> place,
    List<MappedLayer> layers,
    RegionLabels labels,
    List<RegionTable> regions,
    List<Finding> findings,
    ScanQuality quality,
    Optional<Landmark> fovea,
    Optional<OpticDisc> disc,
    long segmentNanos,
    long mapNanos) {
  public MeasuredScan {
    Objects.requireNonNull(scan, "scan");
    Objects.requireNonNull(boundaries, "boundaries");
    Objects.requireNonNull(place, "place");
    Objects.requireNonNull(quality, "quality");
    Objects.requireNonNull(fovea, "fovea");
    Objects.requireNonNull(disc, "disc");
    layers = List.copyOf(layers);
    Objects.requireNonNull(labels, "labels");
    regions = List.copyOf(regions);
    findings = List.copyOf(findings);
  }

  /**
   * Where a scan lies, corrected for axial length if that was asked for.
   *
   * @param path where the A-scans lie
   * @param centre the landmark, in the same coordinates
   * @param lateralScale what lengths were multiplied with against those the object states
   */
  public record Place(ScanPath path, Landmark centre, double lateralScale) {
    public Place {
      Objects.requireNonNull(path, "path");
      Objects.requireNonNull(centre, "centre");
    }

    /** Returns the same path about another centre. */
    Place about(Landmark other) {
      return new Place(path, other, lateralScale);
    }

    /** Returns the A-scans where another scan's coordinates have them, about a centre there. */
    Place laid(ScanPath there, Landmark about) {
      return new Place(there, about, lateralScale);
    }
  }

  /** Returns this scan with other things said of it. */
  MeasuredScan saying(List<Finding> said) {
    return new MeasuredScan(
        scan,
        boundaries,
        place,
        layers,
        labels,
        regions,
        said,
        quality,
        fovea,
        disc,
        segmentNanos,
        mapNanos);
  }

  /** Returns this scan without its labels, which take room and are not compared. */
  MeasuredScan withoutLabels() {
    return new MeasuredScan(
        scan,
        boundaries,
        place,
        layers,
        RegionLabels.none(scan.size()),
        regions,
        findings,
        quality,
        fovea,
        disc,
        segmentNanos,
        mapNanos);
  }

  /** Returns a layer's map and sectors, or empty when it was not mapped. */
  public Optional<MappedLayer> layer(Layer layer) {
    return layers.stream().filter(mapped -> mapped.map().layer().equals(layer)).findFirst();
  }

  /** Returns whether the scan gave any number. */
  public boolean measured() {
    return boundaries.isPresent();
  }
}
