package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.map.InterpolationRules;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.map.MapInterpolator;
import org.isopach.analysis.map.MapLattice;
import org.isopach.analysis.map.ThicknessMap;
import org.isopach.analysis.nerve.AngleZero;
import org.isopach.analysis.nerve.CircleProfile;
import org.isopach.analysis.nerve.CircleSampler;
import org.isopach.analysis.nerve.DiscOpening;
import org.isopach.analysis.nerve.HeightMap;
import org.isopach.analysis.nerve.RimMeter;
import org.isopach.analysis.scan.OctScan;

/** Reads the disc, the circle round it and the inner layers round the fovea from volumes. */
final class VolumeReader {
  static final double HALF_WIDTH_MM = 3.0;
  static final MapLattice LATTICE = MapLattice.centred(HALF_WIDTH_MM, LayerMapper.STEP_MM);

  /** Nerve fibres, ganglion cells with the layer of their processes, and both together. */
  static final List<Layer> GANGLION =
      List.of(
          CircleSight.FIBRES,
          LayerCatalogue.ofWord("GCL+IPL").orElseThrow(),
          LayerCatalogue.ofWord("GCC").orElseThrow());

  private final MapInterpolator interpolator = new MapInterpolator(InterpolationRules.DEFAULT);
  private final OctScan scan;
  private final ScanPath path;

  /**
   * Makes a reader.
   *
   * @param scan its laterality must be known
   * @param path where its A-scans lie, in the mm of the eye
   */
  VolumeReader(OctScan scan, ScanPath path) {
    this.scan = scan;
    this.path = path;
  }

  /** Returns where the A-scans lie in the scan's own mm. */
  ScanPath scanPath() {
    return scan.path().orElseThrow();
  }

  /** Returns the disc; opening and surface are in the mm of the eye. */
  DiscSight disc(BoundarySet boundaries, DiscOpening opening, HeightMap surface) {
    Landmark centre = new Landmark(opening.centre(), Landmark.Source.DISC_OPENING);
    ThicknessMap fibres =
        interpolator.interpolate(scan, path, boundaries, CircleSight.FIBRES, centre, LATTICE);
    return new DiscSight(opening, RimMeter.measure(opening, surface), Optional.of(fibres));
  }

  /** Returns the circle laid round the middle of a map of the nerve fibre layer. */
  CircleSight circle(BoundarySet boundaries, ThicknessMap fibres, double diameterMm) {
    CircleProfile profile = CircleSampler.ofMap(fibres, diameterMm, AngleZero.HORIZONTAL);
    CircleValues values =
        CircleValues.in(path, fibres.centre(), diameterMm, fibres.laterality(), fibres.lattice());
    return CircleSight.of(profile, boundaries, values);
  }

  /** Returns the maps round the fovea of those layers whose boundaries were looked for. */
  List<ThicknessMap> ganglion(BoundarySet boundaries, Landmark fovea) {
    List<ThicknessMap> maps = new ArrayList<>();
    for (Layer layer : GANGLION) {
      if (boundaries.has(layer)) {
        maps.add(interpolator.interpolate(scan, path, boundaries, layer, fovea, LATTICE));
      }
    }
    return maps;
  }
}
