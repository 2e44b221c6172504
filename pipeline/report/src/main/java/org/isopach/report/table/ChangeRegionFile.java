package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.analysis.change.ChangeRegion;
import org.isopach.analysis.change.ChangeRegions.NotSought;
import org.isopach.analysis.change.ChangeRegions.Sought;
import org.isopach.analysis.change.ChangeTable;

/**
 * {@code change-regions.csv}: where the change between two visits is beyond noise.
 *
 * <p>A row for each region. A layer and comparison without one has a single row whose {@code
 * region} is 0 and whose {@code words} say that nothing was found, or why nothing was looked for.
 */
public final class ChangeRegionFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              ScanKey.COLUMNS.stream(),
              Stream.of(
                  "region",
                  "direction",
                  "area_mm2",
                  "mean_change_um",
                  "peak_change_um",
                  "nasal_mm",
                  "superior_mm",
                  "volume_change_mm3",
                  "looked_at_mm2",
                  "resolution_mm",
                  "correlation_length_mm",
                  "minimum_area_mm2",
                  "noise_source",
                  "noise_reference",
                  "baseline_sop_uid",
                  "words"))
          .toList();

  private ChangeRegionFile() {}

  /** Writes the regions in the order of {@code change.csv}; returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<AlignedChange> changes) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(changes));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<AlignedChange> changes) {
    List<List<String>> rows = new ArrayList<>();
    for (AlignedChange change : ChangeFile.inOrder(changes)) {
      if (change.regions() instanceof Sought sought) {
        sought.regions().forEach(region -> rows.add(row(change.table(), sought, region)));
        if (sought.regions().isEmpty()) {
          rows.add(empty(change.table(), tail(change.table(), sought, NOTHING)));
        }
      } else {
        String why = ((NotSought) change.regions()).reason();
        rows.add(
            empty(
                change.table(),
                List.of(
                    "",
                    "",
                    "",
                    "",
                    "",
                    "",
                    change.table().baseline().sopUid(),
                    "not looked for: " + why)));
      }
    }
    return rows;
  }

  private static final String NOTHING = "no region beyond measurement noise";

  private static List<String> row(ChangeTable table, Sought sought, ChangeRegion region) {
    List<String> cells = new ArrayList<>(key(table));
    cells.add(Integer.toString(region.number()));
    cells.add(region.thicker() ? "thicker" : "thinner");
    cells.add(TableNumber.fixed(region.areaMm2(), 4));
    cells.add(TableNumber.fixed(region.meanUm(), 3));
    cells.add(TableNumber.fixed(region.peakUm(), 3));
    cells.add(TableNumber.fixed(region.nasalMm(), 3));
    cells.add(TableNumber.fixed(region.superiorMm(), 3));
    cells.add(TableNumber.fixed(region.volumeMm3(), 6));
    cells.addAll(tail(table, sought, words(region)));
    return cells;
  }

  private static List<String> empty(ChangeTable table, List<String> tail) {
    List<String> cells = new ArrayList<>(key(table));
    cells.addAll(List.of("0", "", "", "", "", "", "", ""));
    cells.addAll(tail);
    return cells;
  }

  private static List<String> tail(ChangeTable table, Sought sought, String words) {
    return List.of(
        TableNumber.fixed(sought.lookedAtMm2(), 3),
        TableNumber.fixed(sought.noise().resolutionMm(), 3),
        TableNumber.fixed(sought.noise().correlationLengthMm(), 3),
        TableNumber.fixed(sought.minimumAreaMm2(), 4),
        sought.noise().source().code(),
        sought.noise().reference(),
        table.baseline().sopUid(),
        words);
  }

  /** Returns a region in words, as tables and pages print it. */
  public static String words(ChangeRegion region) {
    return (region.thicker() ? "thicker by " : "thinner by ")
        + TableNumber.fixed(Math.abs(region.meanUm()), 1)
        + " µm on average over "
        + TableNumber.fixed(region.areaMm2(), 2)
        + " mm², "
        + side(region.nasalMm(), "nasal", "temporal")
        + " and "
        + side(region.superiorMm(), "superior", "inferior")
        + " of the centre";
  }

  private static String side(double mm, String positive, String negative) {
    return TableNumber.fixed(Math.abs(mm), 2) + " mm " + (mm < 0 ? negative : positive);
  }

  private static List<String> key(ChangeTable table) {
    return new ScanKey(table.followUp(), table.laterality(), table.layer()).cells();
  }
}
