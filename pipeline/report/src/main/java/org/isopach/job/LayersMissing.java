package org.isopach.job;

import java.util.Optional;
import java.util.stream.Collectors;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.LayerCatalogue;

/**
 * Says which of the main layers a scan does not have because their boundaries were not looked for.
 */
final class LayersMissing {
  private LayersMissing() {}

  /** Returns a finding that names them, or empty when there are none. */
  static Optional<Finding> of(JobRequest request, BoundarySet boundaries, String subject) {
    String missing =
        request.layers().stream()
            .filter(layer -> request.pictured().contains(layer) && !boundaries.has(layer))
            .map(LayerCatalogue::shortName)
            .collect(Collectors.joining(", "));
    return missing.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new Finding(
                FindingKind.LAYER_NOT_SEARCHED,
                subject,
                missing + ": a boundary of the layer is not looked for in such scans"));
  }
}
