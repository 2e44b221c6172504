package org.isopach.report;

import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.eye.Eye;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.layer.Layer;
import org.isopach.analysis.repeat.RepeatedValues;
import org.isopach.analysis.repeat.SectorRepeatability;

/** Repeats with known answers, as if they were thicknesses. */
public final class SampleRepeats {
  /** First readings of both meters, Bland and Altman, Lancet 1986;i:307, table 1 (from memory). */
  private static final double[][] FLOW = {
    {494, 512}, {395, 430}, {516, 520}, {434, 428}, {476, 500}, {557, 600}, {413, 364}, {442, 380},
    {650, 658}, {433, 445}, {417, 432}, {656, 626}, {267, 260}, {478, 477}, {178, 259}, {423, 350},
    {427, 451}
  };

  private SampleRepeats() {}

  /** Returns the pairs of both meters, right and left eyes in turn. */
  public static SectorRepeatability flow() {
    return of(FLOW.length);
  }

  /** Returns the first two pairs: a right and a left eye. */
  public static SectorRepeatability two() {
    return of(2);
  }

  /** Returns the first pairs. */
  public static SectorRepeatability of(int pairs) {
    List<RepeatedValues> values = new ArrayList<>();
    for (int i = 0; i < pairs; i++) {
      Laterality side = i % 2 == 0 ? Laterality.RIGHT : Laterality.LEFT;
      values.add(
          new RepeatedValues(
              new Eye("TSEU-" + i / 2, "", side),
              i + 1,
              List.of(
                  new RepeatedValues.Repeat("1.2." + i + ".1", FLOW[i][0], ""),
                  new RepeatedValues.Repeat("1.2." + i + ".2", FLOW[i][1], "foveal-pit"))));
    }
    return SectorRepeatability.of(Layer.ILM_BM, "centre", values);
  }
}
