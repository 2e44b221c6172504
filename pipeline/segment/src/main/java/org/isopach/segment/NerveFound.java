package org.isopach.segment;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.quality.ScanQuality;

/**
 * What was found in a scan of the optic nerve, laid out as a right eye.
 *
 * @param boundaries the boundaries; empty when the scan was refused
 * @param shape the opening and the ILM over it
 * @param fovea the foveal pit
 * @param findings what there is to say
 * @param quality how good the scan is
 */
record NerveFound(
    Optional<BoundarySet> boundaries,
    Optional<OpeningShape> shape,
    Optional<Landmark> fovea,
    List<Finding> findings,
    ScanQuality quality) {
  static NerveFound refused(List<Finding> findings, ScanQuality quality) {
    return new NerveFound(Optional.empty(), Optional.empty(), Optional.empty(), findings, quality);
  }

  /**
   * Returns this as of an eye, laid back when it is a left one. Of an eye not known the opening has
   * no directions and is left out.
   */
  NerveLook asLook(Optional<Laterality> eye) {
    boolean left = eye.equals(Optional.of(Laterality.LEFT));
    return new NerveLook(
        left ? boundaries.map(Mirror::of) : boundaries,
        eye.flatMap(side -> shape.map(found -> found.opening(side))),
        eye.flatMap(side -> shape.map(found -> found.innerSurface(side))),
        left ? fovea.map(Mirror::of) : fovea,
        findings,
        quality);
  }
}
