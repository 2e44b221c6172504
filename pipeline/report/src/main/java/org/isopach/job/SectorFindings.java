package org.isopach.job;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.analysis.geometry.ScanPattern;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;
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
    List<String> refused =
        layer.table().sectors().stream()
            .filter(NotMeasurable.class::isInstance)
            .map(SectorResult::sector)
            .filter(name -> !name.equals(SectorGrid.TOTAL))
            .toList();
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
