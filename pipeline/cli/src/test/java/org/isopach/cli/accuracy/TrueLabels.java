package org.isopach.cli.accuracy;

import java.util.EnumSet;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.region.RegionLabels;
import org.isopach.fixtures.phantom.PhantomScan;

/** Region labels that are always right. */
final class TrueLabels {
  private TrueLabels() {}

  static RegionLabels of(PhantomScan phantom) {
    RegionLabels.Builder labels =
        RegionLabels.builder(phantom.truth().size(), EnumSet.allOf(RegionKind.class));
    for (int f = 0; f < phantom.truth().size().frames(); f++) {
      labels.set(f, phantom.truth().regions(f));
    }
    return labels.build();
  }
}
