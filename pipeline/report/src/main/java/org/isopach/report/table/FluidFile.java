package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.isopach.analysis.eye.Laterality;
import org.isopach.analysis.region.MeasuredRegion;
import org.isopach.analysis.region.RegionResult;
import org.isopach.analysis.region.RegionTable;
import org.isopach.analysis.region.UnmeasuredRegion;

/**
 * {@code fluid.csv}: how much fluid and other regions every scan has, by kind and place.
 *
 * <p>One row for a place of a kind of a scan: the grid's sectors, their total, the whole scan last
 * ({@code sector} is {@code scan}). Kinds that were not looked for have no rows. Rows are ordered
 * by patient, eye (unknown last), time, object, kind. A place that is not measurable has no volume
 * and no area, {@code measurable} is {@code false} and {@code reason} says why; {@code present} may
 * be known all the same. {@code regions}, {@code largest_section_mm2} and {@code
 * largest_section_frame} (0-based) stand in the row of the scan only.
 */
public final class FluidFile {
  private static final List<String> COLUMNS =
      List.of(
          "patient_id",
          "study_uid",
          "series_uid",
          "sop_uid",
          "acquired",
          "laterality",
          "kind",
          "grid",
          "sector",
          "present",
          "volume_nl",
          "region_area_mm2",
          "max_height_um",
          "regions",
          "largest_section_mm2",
          "largest_section_frame",
          "area_mm2",
          "covered_fraction",
          "centre_x_mm",
          "centre_y_mm",
          "centre_source",
          "measurable",
          "reason");

  private static final Comparator<RegionTable> ORDER =
      Comparator.comparing((RegionTable table) -> table.scan().patientId())
          .thenComparing(table -> table.laterality().map(Laterality::ordinal).orElse(2))
          .thenComparing(table -> ScanKey.timeOrLast(table.scan()))
          .thenComparing(table -> table.scan().sopUid())
          .thenComparing(RegionTable::kind);

  private FluidFile() {}

  /** Writes the tables in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<RegionTable> tables) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(tables));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<RegionTable> tables) {
    return inOrder(tables).stream()
        .flatMap(
            table ->
                Stream.concat(table.sectors().stream(), Stream.of(table.whole()))
                    .map(result -> row(table, result)))
        .toList();
  }

  /** Returns the tables in the order of the file's rows. */
  public static List<RegionTable> inOrder(Collection<RegionTable> tables) {
    return tables.stream().sorted(ORDER).toList();
  }

  private static List<String> row(RegionTable table, RegionResult result) {
    List<String> cells = new ArrayList<>();
    cells.add(table.scan().patientId());
    cells.add(table.scan().studyUid());
    cells.add(table.scan().seriesUid());
    cells.add(table.scan().sopUid());
    cells.add(ScanKey.time(table.scan().acquired()));
    cells.add(table.laterality().map(Laterality::code).orElse(""));
    cells.add(table.kind().code());
    cells.add(table.grid().orElse(""));
    cells.add(result.place());
    cells.add(result.present().map(String::valueOf).orElse(""));
    cells.addAll(sizes(result));
    cells.addAll(found(table, result));
    cells.add(result.placeAreaMm2() > 0 ? TableNumber.fixed(result.placeAreaMm2(), 6) : "");
    cells.add(TableNumber.fixed(result.coveredFraction(), 4));
    cells.add(table.centre().map(c -> TableNumber.fixed(c.point().xMm(), 4)).orElse(""));
    cells.add(table.centre().map(c -> TableNumber.fixed(c.point().yMm(), 4)).orElse(""));
    cells.add(table.centre().map(c -> c.source().code()).orElse(""));
    cells.add(Boolean.toString(result instanceof MeasuredRegion));
    cells.add(
        result instanceof UnmeasuredRegion refused
            ? refused.reason().code() + ": " + refused.detail()
            : "");
    return cells;
  }

  private static List<String> sizes(RegionResult result) {
    if (result instanceof MeasuredRegion measured) {
      return List.of(
          TableNumber.fixed(measured.volumeNl(), 4),
          TableNumber.fixed(measured.areaMm2(), 6),
          TableNumber.fixed(measured.maxHeightUm(), 3));
    }
    OptionalDouble height = ((UnmeasuredRegion) result).maxHeightUm();
    return List.of("", "", height.isPresent() ? TableNumber.fixed(height.getAsDouble(), 3) : "");
  }

  private static List<String> found(RegionTable table, RegionResult result) {
    if (!result.place().equals(RegionTable.SCAN) || table.found().isEmpty()) {
      return List.of("", "", "");
    }
    RegionTable.Found found = table.found().get();
    Optional<RegionTable.Section> section = found.largestSection();
    return List.of(
        Integer.toString(found.regions()),
        section.map(one -> TableNumber.fixed(one.areaMm2(), 6)).orElse(""),
        section.map(one -> Integer.toString(one.frame())).orElse(""));
  }
}
