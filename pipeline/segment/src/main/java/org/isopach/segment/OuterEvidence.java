package org.isopach.segment;

import org.isopach.segment.tissue.TissueMap;

/** How little each coarse column of a frame looks like the optic disc. */
final class OuterEvidence {
  private final LoadedScan loaded;
  private final TissueMap[] maps;

  OuterEvidence(LoadedScan loaded) {
    this.loaded = loaded;
    this.maps = loaded.tissues();
  }

  /** Returns for each coarse column of a usable frame 1 outside of the disc, 0 inside. */
  float[] along(int frame) {
    TissueMap map = maps[frame];
    float[] disc = LostLayers.discShare(map);
    float[] along = new float[loaded.grid().columns()];
    for (int c = 0; c < along.length; c++) {
      int ascan = c * loaded.grid().ascansPerCell() + loaded.grid().ascansPerCell() / 2;
      along[c] = 1 - disc[(int) Math.round(map.column(ascan))];
    }
    return along;
  }
}
