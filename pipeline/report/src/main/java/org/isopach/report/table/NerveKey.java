package org.isopach.report.table;

import java.util.Objects;

/** Which value of a scan: what was measured, of which layer, in which sector of which scheme. */
public record NerveKey(NerveMeasure measure, String layer, String scheme, String sector) {
  public NerveKey {
    Objects.requireNonNull(measure, "measure");
    Objects.requireNonNull(layer, "layer");
    Objects.requireNonNull(scheme, "scheme");
    Objects.requireNonNull(sector, "sector");
  }
}
