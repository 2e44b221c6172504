package org.isopach.segment;

import java.util.EnumMap;
import java.util.Map;
import org.isopach.analysis.region.RegionKind;
import org.isopach.analysis.scan.ScanSize;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMap;

/**
 * Labels the pixels of a frame that more probably than not belong to a region: the probabilities of
 * the tissue map, interpolated linearly from its cells' centres to the pixels.
 */
final class RegionPainter {
  /** The tissue of each kind of region. */
  static final Map<RegionKind, Tissue> TISSUES = new EnumMap<>(RegionKind.class);

  static {
    TISSUES.put(RegionKind.INTRARETINAL_FLUID, Tissue.INTRARETINAL_FLUID);
    TISSUES.put(RegionKind.SUBRETINAL_FLUID, Tissue.SUBRETINAL_FLUID);
    TISSUES.put(RegionKind.RPE_ELEVATION, Tissue.RPE_ELEVATION);
    TISSUES.put(RegionKind.HYPERREFLECTIVE_MATERIAL, Tissue.HYPERREFLECTIVE_MATERIAL);
  }

  private static final float LEAST = 0.5f;

  /** Below this in all four cells around it, a pixel cannot reach {@link #LEAST}. */
  private static final float NOTHING = LEAST;

  private final ScanSize size;

  RegionPainter(ScanSize size) {
    this.size = size;
  }

  /** Returns the labels of a frame, index {@code depth * ascans + ascan}. */
  byte[] paint(TissueMap map) {
    byte[] labels = new byte[size.framePixels()];
    for (Map.Entry<RegionKind, Tissue> entry : TISSUES.entrySet()) {
      paint(map, entry.getValue(), entry.getKey().label(), labels);
    }
    return labels;
  }

  private void paint(TissueMap map, Tissue tissue, byte label, byte[] labels) {
    for (int c = 0; c < map.columns(); c++) {
      for (int r = 0; r < map.rows(); r++) {
        if (map.probability(tissue, r, c) >= NOTHING) {
          paintAround(map, tissue, label, labels, r, c);
        }
      }
    }
  }

  /**
   * Labels the pixels that reach the least probability between the centres of the cells before and
   * behind a cell; at the map's ends, up to the frame's.
   */
  private void paintAround(
      TissueMap map, Tissue tissue, byte label, byte[] labels, int row, int column) {
    int top = row == 0 ? 0 : (int) Math.ceil(map.depthPx(row - 1));
    int left = column == 0 ? 0 : (int) Math.ceil(map.ascan(column - 1));
    boolean lowest = row == map.rows() - 1;
    boolean last = column == map.columns() - 1;
    int bottom = lowest ? size.depths() - 1 : (int) map.depthPx(row + 1);
    int right = last ? size.ascans() - 1 : (int) map.ascan(column + 1);
    for (int d = top; d <= bottom; d++) {
      for (int a = left; a <= right; a++) {
        int at = d * size.ascans() + a;
        if (labels[at] == 0 && probability(map, tissue, d, a) >= LEAST) {
          labels[at] = label;
        }
      }
    }
  }

  private static float probability(TissueMap map, Tissue tissue, int depth, int ascan) {
    double row = Math.min(map.rows() - 1.0, Math.max(0, map.row(depth)));
    double column = map.column(ascan);
    int r = (int) row;
    int c = (int) column;
    int nextRow = Math.min(map.rows() - 1, r + 1);
    int nextColumn = Math.min(map.columns() - 1, c + 1);
    float down = (float) (row - r);
    float across = (float) (column - c);
    float left =
        (1 - down) * map.probability(tissue, r, c) + down * map.probability(tissue, nextRow, c);
    float right =
        (1 - down) * map.probability(tissue, r, nextColumn)
            + down * map.probability(tissue, nextRow, nextColumn);
    return (1 - across) * left + across * right;
  }
}
