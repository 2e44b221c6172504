package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.isopach.analysis.asymmetry.AsymmetryTable;
import org.isopach.analysis.asymmetry.SectorAsymmetry;
import org.isopach.analysis.layer.LayerCatalogue;

/**
 * {@code asymmetry.csv}: how every sector differs between the two eyes, right minus left.
 *
 * <p>Rows are ordered by patient, time of the right eye's scan, object, layer, sector. Both means
 * are over the area that both eyes cover, so that they may differ a little from {@code
 * sectors.csv}.
 */
public final class AsymmetryFile {
  /** What stands in {@code normal_limits}: none are published of this grid that we could read. */
  public static final String NO_LIMITS = "none published here";

  private static final List<String> COLUMNS =
      List.of(
          "patient_id",
          "layer",
          "grid",
          "sector",
          "right_um",
          "left_um",
          "difference_um",
          "mean_um",
          "area_mm2",
          "covered_fraction",
          "measurable",
          "reason",
          "normal_limits",
          "right_study_uid",
          "right_sop_uid",
          "right_acquired",
          "left_study_uid",
          "left_sop_uid",
          "left_acquired");

  private static final Comparator<AsymmetryTable> ORDER =
      Comparator.comparing((AsymmetryTable table) -> table.right().patientId())
          .thenComparing(table -> ScanKey.timeOrLast(table.right()))
          .thenComparing(table -> table.right().sopUid())
          .thenComparing(table -> LayerCatalogue.ALL.indexOf(table.layer()));

  private AsymmetryFile() {}

  /** Writes the tables in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, List<AsymmetryTable> tables) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(tables));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(List<AsymmetryTable> tables) {
    return tables.stream()
        .sorted(ORDER)
        .flatMap(table -> table.sectors().stream().map(one -> row(table, one)))
        .toList();
  }

  private static List<String> row(AsymmetryTable table, SectorAsymmetry sector) {
    List<String> cells = new ArrayList<>();
    cells.add(table.right().patientId());
    cells.add(table.layer().name());
    cells.add(table.grid().name());
    cells.add(sector.sector());
    if (sector instanceof SectorAsymmetry.Given given) {
      cells.add(TableNumber.fixed(given.rightUm(), 3));
      cells.add(TableNumber.fixed(given.leftUm(), 3));
      cells.add(TableNumber.fixed(given.differenceUm(), 3));
      cells.add(TableNumber.fixed(given.meanUm(), 3));
    } else {
      cells.addAll(List.of("", "", "", ""));
    }
    cells.add(TableNumber.fixed(sector.areaMm2(), 6));
    cells.add(TableNumber.fixed(sector.coveredFraction(), 4));
    cells.add(Boolean.toString(sector instanceof SectorAsymmetry.Given));
    cells.add(sector instanceof SectorAsymmetry.Missing missing ? missing.reason() : "");
    cells.add(NO_LIMITS);
    cells.add(table.right().studyUid());
    cells.add(table.right().sopUid());
    cells.add(ScanKey.time(table.right().acquired()));
    cells.add(table.left().studyUid());
    cells.add(table.left().sopUid());
    cells.add(ScanKey.time(table.left().acquired()));
    return cells;
  }
}
