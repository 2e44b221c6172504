package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.cross.CrossLine;
import org.isopach.analysis.cross.Differences;
import org.isopach.analysis.cross.VoxelOverlap;
import org.isopach.analysis.eye.Laterality;

/**
 * {@code crosscheck.csv}: what others found in a scan, beside ours.
 *
 * <p>One row for a thing that an object says of a scan: scan by scan in the order of the other
 * tables, object by object, at the end what belongs to no scan. {@code theirs}, {@code ours} and
 * {@code difference} (theirs less ours) are in {@code unit}; what may not be subtracted has no
 * difference, {@code comparable} is {@code false} and {@code reason} says why.
 */
public final class CrossCheckFile {
  private static final int UM_DECIMALS = 3;
  private static final int SHARE_DECIMALS = 4;
  private static final List<String> COLUMNS =
      List.of(
          "patient_id",
          "study_uid",
          "sop_uid",
          "acquired",
          "laterality",
          "object_kind",
          "object_uid",
          "object_software",
          "matched_by",
          "placed_by",
          "their_definition",
          "our_definition",
          "place",
          "quantity",
          "unit",
          "theirs",
          "ours",
          "difference",
          "pairs",
          "only_theirs",
          "only_ours",
          "sd_difference_um",
          "mean_absolute_um",
          "lower_limit_um",
          "upper_limit_um",
          "absolute_p95_um",
          "their_voxels",
          "our_voxels",
          "common_voxels",
          "dice",
          "covered_fraction",
          "comparable",
          "reason",
          "remark");

  private CrossCheckFile() {}

  /** Writes the lines in their order and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<CrossLine> lines) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(lines));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<CrossLine> lines) {
    return lines.stream().map(CrossCheckFile::row).toList();
  }

  private static List<String> row(CrossLine line) {
    CrossLine.Pair pair = line.pair();
    int decimals = pair.quantity().decimals();
    List<String> cells = new ArrayList<>(subject(line));
    cells.addAll(List.of(pair.theirs(), pair.ours(), pair.place(), pair.quantity().code()));
    cells.add(pair.quantity().unit());
    cells.add(number(line.theirs(), decimals));
    cells.add(number(line.ours(), decimals));
    cells.add(number(line.difference(), decimals));
    cells.addAll(places(line.differences()));
    cells.addAll(voxels(line.overlap()));
    cells.add(number(line.coveredFraction(), SHARE_DECIMALS));
    cells.add(Boolean.toString(line.verdict().comparable()));
    cells.add(line.verdict().reason());
    cells.add(line.verdict().remark());
    return cells;
  }

  private static List<String> subject(CrossLine line) {
    CrossLine.Source object = line.object();
    return List.of(
        line.scan().patientId(),
        line.scan().studyUid(),
        object.matchedBy().isEmpty() ? "" : line.scan().sopUid(),
        ScanKey.time(line.scan().acquired()),
        line.laterality().map(Laterality::code).orElse(""),
        object.kind(),
        object.uid(),
        object.software(),
        object.matchedBy(),
        object.placedBy());
  }

  private static List<String> places(Optional<Differences> differences) {
    if (differences.isEmpty()) {
      return List.of("", "", "", "", "", "", "", "");
    }
    Differences all = differences.get();
    Differences.Spread spread = all.spread().orElseThrow();
    return List.of(
        Integer.toString(all.pairs()),
        Integer.toString(all.onlyTheirs()),
        Integer.toString(all.onlyOurs()),
        TableNumber.fixed(spread.sd(), UM_DECIMALS),
        TableNumber.fixed(spread.meanAbsolute(), UM_DECIMALS),
        TableNumber.fixed(spread.lowerLimit(), UM_DECIMALS),
        TableNumber.fixed(spread.upperLimit(), UM_DECIMALS),
        TableNumber.fixed(spread.percentile95(), UM_DECIMALS));
  }

  private static List<String> voxels(Optional<VoxelOverlap> overlap) {
    if (overlap.isEmpty()) {
      return List.of("", "", "", "");
    }
    VoxelOverlap all = overlap.get();
    return List.of(
        Long.toString(all.theirs()),
        Long.toString(all.ours()),
        Long.toString(all.both()),
        number(all.dice(), SHARE_DECIMALS));
  }

  private static String number(OptionalDouble value, int decimals) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), decimals) : "";
  }
}
