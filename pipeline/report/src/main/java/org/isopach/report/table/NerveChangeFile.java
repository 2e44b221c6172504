package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.isopach.analysis.nerve.NerveEvent;

/**
 * {@code nerve-change.csv}: what became of every value of the nerve since the baseline visit.
 *
 * <p>Rows keep the order of eyes, roles, visits, measures, schemes and sectors. The interval, the
 * limit and {@code verdict} are there where test–retest noise of the value is known; {@code words}
 * says the same in a sentence, or why it is not said. A row of {@code rnfl-defect} is a stretch of
 * the circle, {@code sector} its degrees, {@code change} its greatest depth.
 */
public final class NerveChangeFile {
  private static final List<String> COLUMNS =
      List.of(
          "patient_id",
          "patient_id_issuer",
          "laterality",
          "role",
          "measure",
          "layer",
          "scheme",
          "sector",
          "unit",
          "baseline_sop_uid",
          "baseline_acquired",
          "follow_up_sop_uid",
          "follow_up_acquired",
          "n_days",
          "baseline",
          "follow_up",
          "change",
          "change_low",
          "change_high",
          "limit",
          "p",
          "p_adjusted",
          "verdict",
          "noise_sd_um",
          "noise_df",
          "noise_source",
          "noise_reference",
          "words");

  private NerveChangeFile() {}

  /** Writes the changes in the order given and returns the file's SHA-256 digest. */
  public static String write(Path target, List<NerveChange> changes) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(changes));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(List<NerveChange> changes) {
    return changes.stream().map(NerveChangeFile::row).toList();
  }

  private static List<String> row(NerveChange change) {
    NerveKey key = change.key();
    int decimals = key.measure().decimals();
    List<String> cells = new ArrayList<>(EyeKey.cells(change.eye()));
    cells.addAll(
        List.of(
            change.role(),
            key.measure().code(),
            key.layer(),
            key.scheme(),
            key.sector(),
            key.measure().unit(),
            change.baseline().sopUid(),
            ScanKey.time(change.baseline().acquired()),
            change.followUp().sopUid(),
            ScanKey.time(change.followUp().acquired())));
    cells.add(change.days().isPresent() ? Long.toString(change.days().getAsLong()) : "");
    cells.add(number(change.baselineValue(), decimals));
    cells.add(number(change.followUpValue(), decimals));
    cells.add(number(change.change(), decimals));
    cells.addAll(judged(change));
    cells.add(change.words());
    return cells;
  }

  private static List<String> judged(NerveChange change) {
    Optional<NerveEvent.Judged> judged =
        change
            .event()
            .filter(NerveEvent.Judged.class::isInstance)
            .map(NerveEvent.Judged.class::cast);
    List<String> cells = new ArrayList<>();
    int decimals = change.key().measure().decimals();
    cells.add(judged.map(one -> TableNumber.fixed(one.interval().lower(), decimals)).orElse(""));
    cells.add(judged.map(one -> TableNumber.fixed(one.interval().upper(), decimals)).orElse(""));
    cells.add(judged.map(one -> TableNumber.fixed(one.limitUm(), decimals)).orElse(""));
    cells.add(judged.map(one -> TableNumber.fixed(one.p(), 6)).orElse(""));
    cells.add(judged.map(one -> TableNumber.fixed(one.pAdjusted(), 6)).orElse(""));
    cells.add(change.event().map(one -> one.verdict().code()).orElse(""));
    cells.add(judged.map(one -> TableNumber.fixed(one.noise().sdUm(), 3)).orElse(""));
    cells.add(judged.map(one -> degrees(one.noise().degreesOfFreedom())).orElse(""));
    cells.add(judged.map(one -> one.noise().source().code()).orElse(""));
    cells.add(judged.map(one -> one.noise().reference()).orElse(""));
    return cells;
  }

  /** An infinite number of degrees of freedom is an empty cell, as in {@code change.csv}. */
  private static String degrees(double df) {
    return Double.isInfinite(df) ? "" : TableNumber.fixed(df, 1);
  }

  private static String number(OptionalDouble value, int decimals) {
    return value.isPresent() ? TableNumber.fixed(value.getAsDouble(), decimals) : "";
  }
}
