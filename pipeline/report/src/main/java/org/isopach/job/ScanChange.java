package org.isopach.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.isopach.analysis.change.ChangeJudge;
import org.isopach.analysis.change.ChangeMask;
import org.isopach.analysis.change.DifferenceMap;
import org.isopach.analysis.change.RepeatPair;
import org.isopach.analysis.finding.Finding;
import org.isopach.report.table.AlignedChange;

/**
 * What became of one scan against its baseline.
 *
 * @param layers one entry for each layer compared
 * @param findings why layers, or all of it, were refused
 * @param laid the two scans as they lie; empty when they were not compared
 */
public record ScanChange(
    List<LayerChange> layers, List<Finding> findings, Optional<LaidPair> laid) {
  static final ScanChange NONE = new ScanChange(List.of(), List.of());

  public ScanChange {
    layers = List.copyOf(layers);
    findings = List.copyOf(findings);
    Objects.requireNonNull(laid, "laid");
  }

  /** Makes a change between scans that were not laid on one another. */
  public ScanChange(List<LayerChange> layers, List<Finding> findings) {
    this(layers, findings, Optional.empty());
  }

  static ScanChange refused(Finding why) {
    return new ScanChange(List.of(), List.of(why));
  }

  /** Returns the same with one more thing to say. */
  ScanChange and(Finding finding) {
    List<Finding> all = new ArrayList<>(findings);
    all.add(finding);
    return new ScanChange(layers, all, laid);
  }

  /**
   * A layer's difference map and what is made of it.
   *
   * @param map change cell by cell
   * @param mask which of its cells are beyond noise
   * @param change the change by sectors and the regions beyond noise
   */
  public record LayerChange(DifferenceMap map, ChangeMask mask, AlignedChange change) {
    public LayerChange {
      Objects.requireNonNull(map, "map");
      Objects.requireNonNull(mask, "mask");
      Objects.requireNonNull(change, "change");
    }

    static LayerChange of(RepeatPair visits, ChangeJudge.Judged judged, String alignment) {
      return new LayerChange(
          visits.compared().map(),
          judged.mask(),
          new AlignedChange(judged.table(), alignment, visits.placeSdMm(), judged.regions()));
    }
  }
}
