package org.isopach.job;

import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.CrossLine.Pair;
import org.isopach.analysis.cross.CrossLine.Verdict;
import org.isopach.analysis.cross.Differences;
import org.isopach.analysis.cross.VoxelOverlap;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.scan.ScanIdentity;

/**
 * Makes the lines of one object about one scan.
 *
 * @param scan the scan
 * @param laterality which eye; empty when not known
 * @param object what the lines come from
 */
record CrossLines(ScanIdentity scan, Optional<Laterality> laterality, CrossLine.Source object) {

  /** Returns a line of what may not be compared, with what is there of both. */
  CrossLine refused(Pair pair, OptionalDouble theirs, OptionalDouble ours, String reason) {
    return new CrossLine(
        scan,
        laterality,
        object,
        pair,
        theirs,
        ours,
        Optional.empty(),
        Optional.empty(),
        OptionalDouble.empty(),
        Verdict.no(reason));
  }

  /** Returns a line of what may not be compared and has no number. */
  CrossLine refused(Pair pair, String reason) {
    return refused(pair, OptionalDouble.empty(), OptionalDouble.empty(), reason);
  }

  /** Returns a line of two values. */
  CrossLine values(Pair pair, double theirs, double ours, OptionalDouble coverage, String remark) {
    return new CrossLine(
        scan,
        laterality,
        object,
        pair,
        OptionalDouble.of(theirs),
        OptionalDouble.of(ours),
        Optional.empty(),
        Optional.empty(),
        coverage,
        Verdict.yes(remark));
  }

  /** Returns a line of differences place by place; refused where there is no pair. */
  CrossLine places(Pair pair, Differences differences, String remark) {
    if (differences.spread().isEmpty()) {
      return refused(pair, "there is no place where both have a value");
    }
    Differences.Spread spread = differences.spread().get();
    return new CrossLine(
        scan,
        laterality,
        object,
        pair,
        OptionalDouble.of(spread.meanTheirs()),
        OptionalDouble.of(spread.meanOurs()),
        Optional.of(differences),
        Optional.empty(),
        OptionalDouble.of(differences.coveredFraction()),
        Verdict.yes(remark));
  }

  /** Returns a line of two segmentations; a volume may be missing. */
  CrossLine voxels(
      Pair pair, VoxelOverlap overlap, OptionalDouble theirs, OptionalDouble ours, String remark) {
    return new CrossLine(
        scan,
        laterality,
        object,
        pair,
        theirs,
        ours,
        Optional.empty(),
        Optional.of(overlap),
        OptionalDouble.empty(),
        Verdict.yes(remark));
  }

  /** Returns the same for an object laid on the scan in some way. */
  CrossLines placedBy(String way) {
    return new CrossLines(scan, laterality, object.placedBy(way));
  }
}
