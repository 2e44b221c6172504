package org.isopach.cli.accuracy;

import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.Layer;
import org.isopach.fixtures.phantom.Condition;

/**
 * All scans of one condition.
 *
 * @param condition what is wrong with the eye or its scan
 * @param scans one for each eye
 */
record ConditionResult(Condition condition, List<ConditionScan> scans) {
  ConditionResult {
    Objects.requireNonNull(condition, "condition");
    scans = List.copyOf(scans);
  }

  /** Returns the condition's name in words. */
  String name() {
    return condition.name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** Returns whether something is wrong with the retina itself, not only with the scan. */
  boolean pathology() {
    return switch (condition) {
      case CYSTOID_OEDEMA,
          LIFTED_CENTRE,
          SUBRETINAL_FLUID,
          DETACHMENT,
          DRUSEN,
          HYPERREFLECTIVE_MATERIAL,
          GEOGRAPHIC_ATROPHY,
          EPIRETINAL_MEMBRANE,
          FLUID_WITH_FOCI,
          MIXED ->
          true;
      default -> false;
    };
  }

  /** Returns the errors of one boundary in some scans. */
  static DepthTally depth(List<ConditionScan> scans, Boundary boundary) {
    return DepthTally.sum(scans.stream().map(scan -> scan.depths().get(boundary)).toList());
  }

  /** Returns the errors of one boundary in all scans. */
  DepthTally depth(Boundary boundary) {
    return depth(scans, boundary);
  }

  /** Returns the errors of a layer's sectors in some scans. */
  static PlaceErrors sectors(List<ConditionScan> scans, Layer layer) {
    return PlaceErrors.of(scans.stream().map(ConditionScan::sectors).toList()).layer(layer);
  }

  /** Returns the number of scans that were refused whole. */
  long refused() {
    return scans.stream().filter(ConditionScan::refused).count();
  }
}
