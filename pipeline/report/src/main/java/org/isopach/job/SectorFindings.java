package org.isopach.job;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.layer.LayerCatalogue;
import org.isopach.analysis.map.InterpolationRules;

/** Says which sectors of a map were refused. */
final class SectorFindings {
  private SectorFindings() {}

  /** Returns a finding that names the refused sectors, or empty when every sector has a number. */
  static Optional<Finding> of(MappedLayer layer, String subject) {
    return of(layer, subject, Optional.empty());
  }

  /** The same for a scan whose path is known, so that too wide a spacing can be named. */
  static Optional<Finding> of(MappedLayer layer, String subject, Optional<ScanPath> path) {
    List<String> refused = refused(layer);
    if (refused.isEmpty()) {
      return Optional.empty();
    }
    String name = layer.map().layer().name();
    if (!layer.anyMeasured()) {
      Optional<Finding> apart = path.flatMap(p -> tooFarApart(p, subject, name));
      if (apart.isPresent()) {
        return apart;
      }
      return Optional.of(
          new Finding(
              FindingKind.PATTERN_WITHOUT_GRID,
              subject,
              name + ": no sector of the grid is covered"));
    }
    return Optional.of(
        new Finding(
            FindingKind.LOW_COVERAGE, subject, name + ": refused " + String.join(", ", refused)));
  }

  /**
   * Returns one finding for all layers that are measured beside the main ones, or empty when every
   * sector of each has a number. The choroid's outer border is out of view in most scans, which is
   * no reason to repeat one; its refused sectors stand in the table only.
   */
  static Optional<Finding> ofOthers(List<MappedLayer> layers, Set<Layer> main, String subject) {
    List<String> incomplete =
        layers.stream()
            .filter(layer -> !main.contains(layer.map().layer()))
            .filter(layer -> layer.map().layer().outer() != Boundary.CHOROID_SCLERA)
            .filter(layer -> !refused(layer).isEmpty())
            .map(layer -> LayerCatalogue.shortName(layer.map().layer()))
            .toList();
    return incomplete.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Finding(
                FindingKind.LOW_COVERAGE,
                subject,
                "refused sectors in " + String.join(", ", incomplete)));
  }

  private static List<String> refused(MappedLayer layer) {
    return layer.table().sectors().stream()
        .filter(NotMeasurable.class::isInstance)
        .map(SectorResult::sector)
        .filter(name -> !name.equals(SectorGrid.TOTAL))
        .toList();
  }

  private static Optional<Finding> tooFarApart(ScanPath path, String subject, String name) {
    double most = InterpolationRules.DEFAULT.maximumGapMm();
    boolean raster = path.pattern() == ScanPattern.RASTER;
    if (path.ascanSpacingMm() > most) {
      return Optional.of(
          apart(FindingKind.ASCANS_TOO_FAR_APART, subject, name, path.ascanSpacingMm(), most));
    }
    if (raster && path.frameSpacingMm() > most) {
      return Optional.of(
          apart(FindingKind.FRAMES_TOO_FAR_APART, subject, name, path.frameSpacingMm(), most));
    }
    return Optional.empty();
  }

  private static Finding apart(
      FindingKind kind, String subject, String name, double spacing, double most) {
    return new Finding(
        kind,
        subject,
        String.format(
            Locale.ROOT, "%s: spacing is %.2f mm, %.2f mm is the most", name, spacing, most));
  }
}
