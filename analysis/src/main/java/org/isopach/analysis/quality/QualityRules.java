package org.isopach.analysis.quality;

/**
 * From which figure on a lack of quality has a consequence. Grounds are in {@code
 * docs/measurements.md}.
 *
 * @param leastFrameDb a frame whose signal-to-noise ratio is below this loses its depths
 * @param lowScanDb a scan whose median is below this is flagged
 * @param clearDb folded images and the disc are looked for where frame and scan have at least this
 *     ratio
 * @param mostSaturated a scan whose median frame has a larger share of saturated pixels is refused
 * @param mostCutOff a scan that loses the retina in a larger share of its A-scans is flagged
 * @param mostMirrored a scan that shows a folded image in a larger share of its A-scans is flagged
 * @param motionStepUm a scan with a larger axial step between neighbouring frames is flagged
 * @param decentredMm a fovea further from the middle may be flagged
 * @param reachMm and is, when it lies nearer than this to the side of the scan
 * @param leastConfidence a depth of this confidence counts as covered, as in maps
 */
public record QualityRules(
    double leastFrameDb,
    double lowScanDb,
    double clearDb,
    double mostSaturated,
    double mostCutOff,
    double mostMirrored,
    double motionStepUm,
    double decentredMm,
    double reachMm,
    double leastConfidence) {
  /** The working rules. */
  public static final QualityRules DEFAULT =
      new QualityRules(13.0, 16.0, 19.0, 0.10, 0.02, 0.02, 50, 0.30, 2.7, 0.30);
}
