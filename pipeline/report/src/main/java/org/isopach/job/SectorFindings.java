package org.isopach.job;

import java.util.List;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.grid.SectorResult;

/** Says which sectors of a map were refused. */
final class SectorFindings {
  private SectorFindings() {}

  /** Returns a finding that names the refused sectors, or empty when every sector has a number. */
  static Optional<Finding> of(MappedLayer layer, String subject) {
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
}
