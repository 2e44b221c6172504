package org.isopach.segment;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.analysis.map.Landmark;
import org.isopach.analysis.scan.OctScan;

/** Looks for the foveal pit in the whole retina, then in fewer of its layers; says how it went. */
final class PitSearch {
  /**
   * Down to where the pit is looked for: the whole retina; else what lies before fluid or a
   * detachment; else the layers that end at the foveola, which no swelling of the outer nuclear
   * layer fills.
   */
  private static final List<Boundary> PIT_BOTTOMS =
      List.of(Boundary.BM, Boundary.EZ, Boundary.OPL_ONL);

  private static final double LEAST_DISC_TO_FOVEA_MM = 3.0;
  private static final double RING_FROM_MM = 0.8;
  private static final double RING_TO_MM = 1.6;
  private static final double MOST_FIBRES_MICROMETRES = 45;
  private static final double FIBRES_SPACING_MM = 0.06;

  private final OctScan scan;
  private final List<Finding> findings;

  /**
   * Makes a search.
   *
   * @param findings receives what there is to say
   */
  PitSearch(OctScan scan, List<Finding> findings) {
    this.scan = scan;
    this.findings = findings;
  }

  /**
   * Returns the pit, or empty when none stands out or the frames span no area.
   *
   * @param disc the centre of the optic disc; a pit close to it is none
   */
  Optional<Landmark> find(BoundarySet boundaries, Optional<FundusPoint> disc) {
    Optional<ScanPath> area =
        scan.path()
            .filter(
                path ->
                    path.pattern() == ScanPattern.RASTER || path.pattern() == ScanPattern.RADIAL);
    if (area.isEmpty()) {
      return Optional.empty();
    }
    FoveaFinder finder = new FoveaFinder(area.get(), scan.axial());
    for (Boundary bottom : PIT_BOTTOMS) {
      Optional<Landmark> fovea =
          finder.find(boundaries, bottom).filter(pit -> clearOf(disc, pit.point()));
      if (fovea.isPresent()) {
        double fibres = fibresUm(boundaries, area.get(), fovea.get().point());
        if (fibres > MOST_FIBRES_MICROMETRES) {
          findings.add(finding(FindingKind.FOVEA_NOT_FOUND, cup(fibres)));
          return Optional.empty();
        }
        if (bottom != PIT_BOTTOMS.get(0)) {
          findings.add(
              finding(
                  FindingKind.FOVEA_BY_INNER_LAYERS,
                  "the whole retina shows no pit; that of ILM-" + bottom.code() + " was taken"));
        }
        return fovea;
      }
    }
    findings.add(finding(FindingKind.FOVEA_NOT_FOUND, "no foveal pit stands out in the thickness"));
    return Optional.empty();
  }

  private static String cup(double fibresUm) {
    return String.format(
        Locale.ROOT,
        "the nerve fibres around the pit found are %.0f µm thick: a cup, no fovea",
        fibresUm);
  }

  /**
   * Returns the mean thickness of the nerve fibre layer in a ring round a pit, NaN where it has
   * none: 20 to 32 µm round the foveas of phantoms, 50 to 134 µm round their optic cups.
   */
  private double fibresUm(BoundarySet boundaries, ScanPath path, FundusPoint pit) {
    Optional<BoundarySurface> inner = boundaries.surface(Boundary.ILM);
    Optional<BoundarySurface> outer = boundaries.surface(Boundary.RNFL_GCL);
    if (inner.isEmpty() || outer.isEmpty()) {
      return Double.NaN;
    }
    ThicknessSamples samples =
        ThicknessSamples.between(inner.get(), outer.get(), path, scan.axial(), FIBRES_SPACING_MM);
    double sum = 0;
    int n = 0;
    for (int i = 0; i < samples.count(); i++) {
      double away = Math.hypot(samples.xMm(i) - pit.xMm(), samples.yMm(i) - pit.yMm());
      if (away >= RING_FROM_MM && away <= RING_TO_MM) {
        sum += samples.micrometres(i);
        n++;
      }
    }
    return sum / n;
  }

  /** A dip beside the disc is no fovea: the two lie about 4.5 mm apart. */
  private static boolean clearOf(Optional<FundusPoint> disc, FundusPoint pit) {
    return disc.stream().allMatch(d -> d.distanceMm(pit) >= LEAST_DISC_TO_FOVEA_MM);
  }

  private Finding finding(FindingKind kind, String detail) {
    return new Finding(kind, scan.document().location(), detail);
  }
}
