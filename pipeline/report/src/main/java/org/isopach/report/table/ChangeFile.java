package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.analysis.change.ChangeTable;
import org.isopach.analysis.change.ChangeUncertainty.Given;
import org.isopach.analysis.change.SectorChange;
import org.isopach.analysis.change.SectorChange.MeasuredChange;
import org.isopach.analysis.change.SectorChange.NotMeasurableChange;
import org.isopach.analysis.change.Verdict;

/**
 * {@code change.csv}: what became of every sector between two visits.
 *
 * <p>The key columns name the follow-up; those beginning with {@code baseline_} at the end name
 * what it is compared with. Both means are over the area that both visits cover, so that they may
 * differ a little from {@code sectors.csv}. Order and refusals are as there. The columns from
 * {@code change_sd_um} on say how sure the change is; they are empty where no noise is known, and
 * {@code words} says why.
 */
public final class ChangeFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              ScanKey.COLUMNS.stream(),
              Stream.of(
                  "grid",
                  "sector",
                  "baseline_um",
                  "followup_um",
                  "change_um",
                  "change_percent",
                  "n_days",
                  "area_mm2",
                  "covered_fraction",
                  "alignment",
                  "measurable",
                  "reason",
                  "baseline_study_uid",
                  "baseline_series_uid",
                  "baseline_sop_uid",
                  "baseline_acquired",
                  "change_sd_um",
                  "change_low_um",
                  "change_high_um",
                  "p",
                  "p_adjusted",
                  "beyond_noise",
                  "noise_source",
                  "noise_df",
                  "noise_reference",
                  "place_sd_mm",
                  "words"))
          .toList();

  private ChangeFile() {}

  /** Writes the tables in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<AlignedChange> changes) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(changes));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<AlignedChange> changes) {
    return inOrder(changes).stream()
        .flatMap(change -> change.table().sectors().stream().map(one -> row(change, one)))
        .toList();
  }

  /** Returns the tables in the order of the file's rows. */
  public static List<AlignedChange> inOrder(Collection<AlignedChange> changes) {
    return changes.stream()
        .sorted((a, b) -> ScanKey.ORDER.compare(key(a.table()), key(b.table())))
        .toList();
  }

  private static ScanKey key(ChangeTable table) {
    return new ScanKey(table.followUp(), table.laterality(), table.layer());
  }

  private static List<String> row(AlignedChange aligned, SectorChange change) {
    ChangeTable table = aligned.table();
    List<String> cells = new ArrayList<>(key(table).cells());
    cells.add(table.grid().name());
    cells.add(change.sector());
    if (change instanceof MeasuredChange measured) {
      cells.add(TableNumber.fixed(measured.baselineUm(), 3));
      cells.add(TableNumber.fixed(measured.followUpUm(), 3));
      cells.add(TableNumber.fixed(measured.changeUm(), 3));
      double percent = measured.changePercent();
      cells.add(Double.isNaN(percent) ? "" : TableNumber.fixed(percent, 3));
    } else {
      cells.addAll(List.of("", "", "", ""));
    }
    cells.add(table.days().isPresent() ? Long.toString(table.days().getAsLong()) : "");
    cells.add(TableNumber.fixed(change.areaMm2(), 6));
    cells.add(TableNumber.fixed(change.coveredFraction(), 4));
    cells.add(aligned.alignment());
    cells.add(Boolean.toString(change instanceof MeasuredChange));
    cells.add(
        change instanceof NotMeasurableChange refused
            ? refused.reason().code() + ": " + refused.detail()
            : "");
    cells.add(table.baseline().studyUid());
    cells.add(table.baseline().seriesUid());
    cells.add(table.baseline().sopUid());
    cells.add(ScanKey.time(table.baseline().acquired()));
    cells.addAll(uncertainty(change));
    cells.add(TableNumber.fixed(aligned.placeSdMm(), 4));
    cells.add(Verdict.words(change));
    return cells;
  }

  private static List<String> uncertainty(SectorChange change) {
    if (!(change instanceof MeasuredChange measured)
        || !(measured.uncertainty() instanceof Given given)) {
      return List.of("", "", "", "", "", "", "", "", "");
    }
    return List.of(
        TableNumber.fixed(given.sdUm(), 3),
        TableNumber.fixed(given.lowUm(), 3),
        TableNumber.fixed(given.highUm(), 3),
        TableNumber.fixed(given.p(), 6),
        TableNumber.fixed(given.pAdjusted(), 6),
        Boolean.toString(given.beyondNoise()),
        given.noise().source().code(),
        degrees(given.noise().degreesOfFreedom()),
        given.noise().reference());
  }

  private static String degrees(double df) {
    return Double.isInfinite(df) ? "infinite" : TableNumber.fixed(df, 1);
  }
}
