package org.isopach.cli.accuracy;

import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.finding.Finding;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.job.MappedLayer;
import org.isopach.job.MeasuredScan;

/**
 * What became of a tortured scan.
 *
 * @param drawn the scan
 * @param refusal why the whole scan was refused; empty when it was measured
 * @param fault what must never happen: an exception, a crossing, an infinite value; empty for none
 */
record TortureOutcome(TortureCase drawn, Optional<String> refusal, Optional<String> fault) {
  TortureOutcome {
    Objects.requireNonNull(drawn, "drawn");
    Objects.requireNonNull(refusal, "refusal");
    Objects.requireNonNull(fault, "fault");
  }

  static TortureOutcome failed(TortureCase drawn, Exception e) {
    return new TortureOutcome(drawn, Optional.empty(), Optional.of(e.toString()));
  }

  static TortureOutcome of(TortureCase drawn, MeasuredScan measured) {
    Optional<String> refusal =
        measured.measured()
            ? Optional.empty()
            : Optional.of(
                measured.findings().stream()
                    .map(Finding::kind)
                    .map(Enum::name)
                    .reduce((first, last) -> last)
                    .orElse("no reason"));
    Optional<String> fault = measured.boundaries().flatMap(set -> fault(set, drawn));
    if (fault.isEmpty()) {
      fault = measured.layers().stream().flatMap(layer -> faults(layer).stream()).findFirst();
    }
    return new TortureOutcome(drawn, refusal, fault);
  }

  /** Returns what is wrong with boundaries: a depth out of the frame, a crossing, a confidence. */
  static Optional<String> fault(BoundarySet set, TortureCase drawn) {
    int depths = drawn.plan().size().depths();
    for (int f = 0; f < set.frames(); f++) {
      for (int a = 0; a < set.ascans(); a++) {
        float above = 0;
        for (Boundary boundary : set.boundaries()) {
          BoundarySurface surface = set.surface(boundary).orElseThrow();
          float depth = surface.depthPx(f, a);
          float confidence = surface.confidence(f, a);
          boolean sure = confidence >= 0 && confidence <= 1;
          boolean inOrder = Float.isNaN(depth) || (depth >= above && depth <= depths - 1);
          if (!sure || !inOrder) {
            return Optional.of(
                boundary.code() + " at " + f + ", " + a + ": " + depth + ", " + confidence);
          }
          above = Float.isNaN(depth) ? above : depth;
        }
      }
    }
    return Optional.empty();
  }

  private static Optional<String> faults(MappedLayer layer) {
    List<SectorResult> sectors = layer.table().sectors();
    for (SectorResult sector : sectors) {
      if (sector instanceof Measured one && !(Double.isFinite(one.meanUm()) && one.meanUm() >= 0)) {
        return Optional.of(layer.map().layer().name() + ": " + one);
      }
    }
    return Optional.empty();
  }
}
