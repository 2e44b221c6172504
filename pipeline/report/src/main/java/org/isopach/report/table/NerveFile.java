package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.normal.NormalPlace;

/**
 * {@code nerve.csv}: everything measured of the optic nerve and the ganglion cells, one row for
 * every value.
 *
 * <p>Rows are ordered by patient, eye, time, object and role; within a role they keep the order of
 * measures, schemes and sectors. What has no number has an empty cell, {@code measurable} is {@code
 * false} and {@code reason} says why. {@code place} says in words where a value lies among a
 * reference group's, or why that is not said; {@code flags} what makes this very number doubtful.
 */
public final class NerveFile {
  private static final Comparator<NerveTable> ORDER =
      Comparator.comparing((NerveTable table) -> table.scan().patientId())
          .thenComparing(NerveTable::laterality)
          .thenComparing(table -> ScanKey.timeOrLast(table.scan()))
          .thenComparing(table -> table.scan().sopUid())
          .thenComparing(NerveTable::role);

  private static final List<String> COLUMNS =
      List.of(
          "patient_id",
          "study_uid",
          "series_uid",
          "sop_uid",
          "acquired",
          "laterality",
          "role",
          "measure",
          "layer",
          "scheme",
          "sector",
          "unit",
          "value",
          "sd",
          "min",
          "max",
          "covered_fraction",
          "diameter_mm",
          "angle_zero",
          "centre_x_mm",
          "centre_y_mm",
          "centre_source",
          "age_years",
          "measurable",
          "reason",
          "percentile",
          "percentile_low",
          "percentile_high",
          "reference",
          "place",
          "flags");

  private NerveFile() {}

  /** Writes the tables in their fixed order and returns the file's SHA-256 digest. */
  public static String write(Path target, Collection<NerveTable> tables) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(tables));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the tables in the order of the file's rows. */
  public static List<NerveTable> inOrder(Collection<NerveTable> tables) {
    return tables.stream().sorted(ORDER).toList();
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(Collection<NerveTable> tables) {
    return inOrder(tables).stream()
        .flatMap(table -> table.values().stream().map(value -> row(table, value)))
        .toList();
  }

  private static List<String> row(NerveTable table, NerveValue value) {
    int decimals = value.measure().decimals();
    List<String> cells =
        new ArrayList<>(
            List.of(
                table.scan().patientId(),
                table.scan().studyUid(),
                table.scan().seriesUid(),
                table.scan().sopUid(),
                ScanKey.time(table.scan().acquired()),
                table.laterality().code(),
                table.role(),
                value.measure().code(),
                value.layer(),
                value.scheme(),
                value.sector(),
                value.measure().unit()));
    cells.add(number(value.value(), decimals));
    Optional<NerveValue.Spread> spread = value.spread();
    cells.add(spread.map(one -> TableNumber.fixed(one.sd(), decimals)).orElse(""));
    cells.add(spread.map(one -> TableNumber.fixed(one.min(), decimals)).orElse(""));
    cells.add(spread.map(one -> TableNumber.fixed(one.max(), decimals)).orElse(""));
    cells.add(number(value.coveredFraction(), 4));
    cells.add(number(table.diameterMm(), 3));
    cells.add(table.zero().kind().code());
    cells.add(coordinate(table.centre().map(FundusPoint::xMm)));
    cells.add(coordinate(table.centre().map(FundusPoint::yMm)));
    cells.add(table.centreSource());
    cells.add(number(table.ageYears(), 2));
    cells.add(Boolean.toString(value.value().isPresent()));
    cells.add(value.reason());
    Optional<NormalPlace.Placed> placed = value.percentile();
    cells.add(placed.map(one -> TableNumber.fixed(one.percentile(), 2)).orElse(""));
    cells.add(placed.map(one -> TableNumber.fixed(one.interval().lower(), 2)).orElse(""));
    cells.add(placed.map(one -> TableNumber.fixed(one.interval().upper(), 2)).orElse(""));
    cells.add(placed.map(one -> one.row().source().referenceId()).orElse(""));
    cells.add(value.place().map(NerveFile::words).orElse(""));
    cells.add(FlagWords.of(value.flags()));
    return cells;
  }

  private static String words(NormalPlace place) {
    return place instanceof NormalPlace.Placed placed && !placed.notes().isEmpty()
        ? placed.words() + "; " + String.join("; ", placed.notes())
        : place.words();
  }

  private static String number(OptionalDouble value, int decimals) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), decimals) : "";
  }

  private static String coordinate(Optional<Double> value) {
    return value.map(mm -> TableNumber.fixed(mm, 4)).orElse("");
  }
}
