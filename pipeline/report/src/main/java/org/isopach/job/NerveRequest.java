package org.isopach.job;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.nerve.CircleSampler;
import org.isopach.analysis.normal.ReferenceTable;

/**
 * How the nerve is to be measured.
 *
 * @param circleMm diameter of the circle laid round the disc of volumes, mm
 * @param alignToFovea whether angles are counted from the line between disc and fovea, where that
 *     is known
 * @param reference whose values are compared with; empty for none
 */
public record NerveRequest(
    double circleMm, boolean alignToFovea, Optional<ReferenceTable> reference) {
  /** The least and greatest circle that a volume is asked for, mm; ours. */
  public static final double LEAST_CIRCLE_MM = 2.0;

  public static final double GREATEST_CIRCLE_MM = 5.8;

  public NerveRequest {
    Objects.requireNonNull(reference, "reference");
    if (!(circleMm >= LEAST_CIRCLE_MM && circleMm <= GREATEST_CIRCLE_MM)) {
      throw new IllegalArgumentException(
          "a circle's diameter must be from "
              + LEAST_CIRCLE_MM
              + " to "
              + GREATEST_CIRCLE_MM
              + " mm, was "
              + circleMm);
    }
  }

  /** Returns the request of a run that measures the nerve and nothing else. */
  public static JobRequest job(
      List<Path> inputs, Path out, AxialLengths lengths, Set<Output> outputs, int threads) {
    return new JobRequest(
        inputs,
        out,
        VolumeReader.GANGLION,
        Set.of(CircleSight.FIBRES),
        EtdrsGrids.ETDRS_1_3_6,
        lengths,
        Optional.empty(),
        outputs,
        FrameOutputs.NONE,
        threads);
  }

  /** Returns the usual circle, angles from the horizontal, compared with a table. */
  public static NerveRequest usual(ReferenceTable reference) {
    return new NerveRequest(CircleSampler.STANDARD_DIAMETER_MM, false, Optional.of(reference));
  }

  /** Returns what the run record says of this. */
  Map<String, Object> parameters() {
    Map<String, Object> values = new LinkedHashMap<>();
    values.put("circle_mm", circleMm);
    values.put("align_to_fovea", alignToFovea);
    values.put("reference_table", reference.map(ReferenceTable::name).orElse(""));
    return values;
  }
}
