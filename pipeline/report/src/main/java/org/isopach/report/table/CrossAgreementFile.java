package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.isopach.analysis.cross.SectorAgreement;
import org.isopach.analysis.stat.BlandAltman;
import org.isopach.analysis.stat.ConfidenceInterval;

/**
 * {@code crosscheck-agreement.csv}: how sectors of one kind of object by one software agree with
 * ours over several scans, theirs less ours in µm. Fewer than three scans give no limits.
 */
public final class CrossAgreementFile {
  private static final int DECIMALS = 3;
  private static final List<String> COLUMNS =
      List.of(
          "object_kind",
          "object_software",
          "layer",
          "sector",
          "scans",
          "bias_um",
          "bias_low_um",
          "bias_high_um",
          "sd_um",
          "lower_limit_um",
          "lower_limit_low_um",
          "lower_limit_high_um",
          "upper_limit_um",
          "upper_limit_low_um",
          "upper_limit_high_um");

  private CrossAgreementFile() {}

  /** Writes the table and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<SectorAgreement> agreements)
      throws IOException {
    return CsvRows.write(target, COLUMNS, rows(agreements));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<SectorAgreement> agreements) {
    return agreements.stream().map(CrossAgreementFile::row).toList();
  }

  private static List<String> row(SectorAgreement one) {
    List<String> cells = new ArrayList<>();
    cells.addAll(List.of(one.kind(), one.software(), one.layer(), one.sector()));
    cells.add(Integer.toString(one.points().size()));
    if (one.limits().isEmpty()) {
      while (cells.size() < COLUMNS.size()) {
        cells.add("");
      }
      return cells;
    }
    BlandAltman limits = one.limits().get();
    add(cells, limits.bias(), limits.biasInterval());
    cells.add(TableNumber.fixed(limits.sd(), DECIMALS));
    add(cells, limits.lowerLimit(), limits.lowerLimitInterval());
    add(cells, limits.upperLimit(), limits.upperLimitInterval());
    return cells;
  }

  private static void add(List<String> cells, double value, ConfidenceInterval interval) {
    cells.add(TableNumber.fixed(value, DECIMALS));
    cells.add(TableNumber.fixed(interval.lower(), DECIMALS));
    cells.add(TableNumber.fixed(interval.upper(), DECIMALS));
  }
}
