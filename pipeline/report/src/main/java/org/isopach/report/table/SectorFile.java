package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.stream.Stream;
import org.isopach.analysis.grid.Measured;
import org.isopach.analysis.grid.NotMeasurable;
import org.isopach.analysis.grid.SectorResult;
import org.isopach.analysis.grid.SectorTable;

/**
 * {@code sectors.csv}: the thickness of every layer in every sector.
 *
 * <p>One row for a sector of a layer of a scan, the grid's total last. Rows are ordered by patient,
 * eye, time, object, layer and the grid's own order. A sector that is not measurable has no number
 * but its area and covered fraction, {@code measurable} is {@code false} and {@code reason} says
 * why. {@code centre_point_um} belongs to the scan and layer and is repeated in their rows.
 */
public final class SectorFile {
  private static final List<String> COLUMNS =
      Stream.concat(
              ScanKey.COLUMNS.stream(),
              Stream.of(
                  "grid",
                  "sector",
                  "mean_um",
                  "sd_um",
                  "min_um",
                  "max_um",
                  "area_mm2",
                  "covered_fraction",
                  "volume_mm3",
                  "centre_x_mm",
                  "centre_y_mm",
                  "centre_source",
                  "measurable",
                  "reason",
                  "centre_point_um"))
          .toList();

  private SectorFile() {}

  /** Writes the tables in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<SectorTable> tables) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(tables));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<SectorTable> tables) {
    return inOrder(tables).stream()
        .flatMap(table -> table.sectors().stream().map(result -> row(table, result)))
        .toList();
  }

  /** Returns the tables in the order of the file's rows. */
  public static List<SectorTable> inOrder(Collection<SectorTable> tables) {
    return tables.stream().sorted((a, b) -> ScanKey.ORDER.compare(key(a), key(b))).toList();
  }

  private static ScanKey key(SectorTable table) {
    return new ScanKey(table.scan(), table.laterality(), table.layer());
  }

  private static List<String> row(SectorTable table, SectorResult result) {
    List<String> cells = new ArrayList<>(key(table).cells());
    cells.add(table.grid().name());
    cells.add(result.sector());
    String area = TableNumber.fixed(result.areaMm2(), 6);
    String covered = TableNumber.fixed(result.coveredFraction(), 4);
    if (result instanceof Measured measured) {
      cells.add(TableNumber.fixed(measured.meanUm(), 3));
      cells.add(TableNumber.fixed(measured.sdUm(), 3));
      cells.add(TableNumber.fixed(measured.minUm(), 3));
      cells.add(TableNumber.fixed(measured.maxUm(), 3));
      cells.addAll(List.of(area, covered, TableNumber.fixed(measured.volumeMm3(), 6)));
    } else {
      cells.addAll(List.of("", "", "", "", area, covered, ""));
    }
    cells.add(TableNumber.fixed(table.centre().point().xMm(), 4));
    cells.add(TableNumber.fixed(table.centre().point().yMm(), 4));
    cells.add(table.centre().source().code());
    cells.add(Boolean.toString(result instanceof Measured));
    cells.add(
        result instanceof NotMeasurable refused
            ? refused.reason().code() + ": " + refused.detail()
            : "");
    cells.add(
        table.centrePoint() instanceof Measured measured
            ? TableNumber.fixed(measured.meanUm(), 3)
            : "");
    return cells;
  }
}
