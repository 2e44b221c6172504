package org.isopach.cli.accuracy;

import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.fixtures.phantom.PhantomScan;
import org.isopach.segment.SegmentationResult;

/** A segmentation that is always right. */
final class TrueResult {
  private TrueResult() {}

  static RegionLabels labels(PhantomScan phantom) {
    RegionLabels.Builder labels =
        RegionLabels.builder(phantom.truth().size(), EnumSet.allOf(RegionKind.class));
    for (int f = 0; f < phantom.truth().size().frames(); f++) {
      labels.set(f, phantom.truth().regions(f));
    }
    return labels.build();
  }

  static SegmentationResult of(PhantomScan phantom) {
    return new SegmentationResult(
        Optional.of(phantom.truth().boundaries()), Optional.empty(), labels(phantom), List.of());
  }
}
