package org.isopach.segment;

import java.util.EnumSet;
import java.util.Set;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.segment.tissue.Tissue;
import org.isopach.segment.tissue.TissueMap;

/**
 * Tells from the tissue map where boundaries are absent: in the optic disc all but the inner
 * limiting membrane, and where photoreceptors or pigment epithelium are lost those that they have.
 */
final class LostLayers {
  private static final Set<Tissue> LAYERS = EnumSet.range(Tissue.RNFL, Tissue.BRUCH);
  private static final Set<Tissue> RECEPTORS =
      EnumSet.of(Tissue.SEGMENTS, Tissue.HYPERREFLECTIVE_MATERIAL);
  private static final Set<Tissue> EPITHELIUM = EnumSet.of(Tissue.EPITHELIUM, Tissue.BRUCH);
  private static final float DISC_SHARE = 0.5f;

  /** Expected thickness in µm below which photoreceptors or epithelium count as lost. */
  private static final double LEAST_MICROMETRES = 6;

  private static final double SMOOTH_COLUMNS = 1.5;

  private final float[] disc;
  private final float[] receptors;
  private final float[] epithelium;

  /** Looks at a frame's map. */
  LostLayers(TissueMap map, double micrometresPerPixel) {
    double row = map.depthsPerRow() * micrometresPerPixel;
    this.disc = discShare(map);
    this.receptors = thickness(map, RECEPTORS, row);
    this.epithelium = thickness(map, EPITHELIUM, row);
  }

  /** Returns for each column of a map the share of its tissue that looks like the optic disc. */
  static float[] discShare(TissueMap map) {
    float[] inside = map.sums(EnumSet.of(Tissue.DISC));
    float[] layers = map.sums(LAYERS);
    for (int c = 0; c < inside.length; c++) {
      inside[c] /= Math.max(1, inside[c] + layers[c]);
    }
    return LineSmoother.smooth(inside, SMOOTH_COLUMNS);
  }

  private static float[] thickness(TissueMap map, Set<Tissue> tissues, double row) {
    float[] sums = map.sums(tissues);
    for (int c = 0; c < sums.length; c++) {
      sums[c] *= (float) row;
    }
    return LineSmoother.smooth(sums, SMOOTH_COLUMNS);
  }

  /** Returns why a boundary is absent from a column, or {@link Absence#NONE}. */
  Absence absence(Boundary boundary, int column) {
    if (boundary != Boundary.ILM && disc[column] > DISC_SHARE) {
      return Absence.DISC;
    }
    boolean lost =
        switch (boundary) {
          case ELM, EZ -> receptors[column] < LEAST_MICROMETRES;
          case RPE_INNER, RPE -> epithelium[column] < LEAST_MICROMETRES;
          default -> false;
        };
    return lost ? Absence.LAYER_LOST : Absence.NONE;
  }
}
