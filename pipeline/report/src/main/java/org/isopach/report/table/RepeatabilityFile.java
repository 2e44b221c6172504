package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.isopach.analysis.repeat.Estimate;
import org.isopach.analysis.repeat.RepeatabilityStudy;
import org.isopach.analysis.repeat.SectorRepeatability;
import org.isopach.analysis.stat.BlandAltman;
import org.isopach.analysis.stat.ConfidenceInterval;
import org.isopach.analysis.stat.IntraclassCorrelation;
import org.isopach.analysis.stat.WithinSubject;

/**
 * {@code repeatability.csv}: how far repeats differ, a row for each layer and sector. Columns that
 * end in {@code _low_um} and {@code _high_um}, {@code icc_low} and {@code icc_high} are the ends of
 * intervals of the level in {@code confidence_level}. Cells without a number are empty, and {@code
 * reason} says why.
 */
public final class RepeatabilityFile {
  private static final List<String> COLUMNS =
      List.of(
          "layer",
          "grid",
          "sector",
          "n_eyes",
          "n_sessions",
          "n_scans",
          "mean_um",
          "within_sd_um",
          "within_sd_low_um",
          "within_sd_high_um",
          "n_df",
          "repeatability_um",
          "repeatability_low_um",
          "repeatability_high_um",
          "variation_percent",
          "n_pairs",
          "bias_um",
          "bias_low_um",
          "bias_high_um",
          "difference_sd_um",
          "lower_limit_um",
          "lower_limit_low_um",
          "lower_limit_high_um",
          "upper_limit_um",
          "upper_limit_low_um",
          "upper_limit_high_um",
          "icc",
          "icc_low",
          "icc_high",
          "confidence_level",
          "alignment",
          "measurable",
          "reason");
  private static final int WITHIN_CELLS = 9;
  private static final int AGREEMENT_CELLS = 11;
  private static final int CORRELATION_CELLS = 3;
  private static final int DECIMALS = 4;

  private RepeatabilityFile() {}

  /** Writes the study and returns the file's SHA-256 digest. */
  public static String write(Path target, RepeatabilityStudy study) throws IOException {
    return CsvRows.write(target, COLUMNS, rows(study));
  }

  /** Returns the names of the columns. */
  public static List<String> columns() {
    return COLUMNS;
  }

  /** Returns the rows as they stand in the file. */
  public static List<List<String>> rows(RepeatabilityStudy study) {
    return study.sectors().stream().map(one -> row(study, one)).toList();
  }

  private static List<String> row(RepeatabilityStudy study, SectorRepeatability one) {
    List<String> cells = new ArrayList<>();
    cells.add(one.layer().name());
    cells.add(study.grid().name());
    cells.add(one.sector());
    cells.add(Integer.toString(one.eyes()));
    cells.add(Integer.toString(one.sessions().size()));
    cells.add(Integer.toString(one.scans()));
    cells.addAll(one.within().value().map(RepeatabilityFile::cells).orElse(blanks(WITHIN_CELLS)));
    cells.addAll(
        one.agreement().value().map(RepeatabilityFile::cells).orElse(blanks(AGREEMENT_CELLS)));
    cells.addAll(
        one.correlation().value().map(RepeatabilityFile::cells).orElse(blanks(CORRELATION_CELLS)));
    cells.add(TableNumber.fixed(SectorRepeatability.LEVEL, 2));
    cells.add(String.join(" ", one.alignments()));
    cells.add(Boolean.toString(one.within().value().isPresent()));
    cells.add(reasons(one));
    return cells;
  }

  private static List<String> cells(WithinSubject within) {
    OptionalDouble variation = within.coefficientOfVariationPercent();
    List<String> cells = new ArrayList<>();
    cells.add(number(within.mean()));
    cells.addAll(withInterval(within.sd(), within.sdInterval()));
    cells.add(Integer.toString(within.degreesOfFreedom()));
    cells.addAll(
        withInterval(
            within.coefficientOfRepeatability(), within.coefficientOfRepeatabilityInterval()));
    cells.add(variation.isPresent() ? number(variation.getAsDouble()) : "");
    return cells;
  }

  private static List<String> cells(BlandAltman agreement) {
    List<String> cells = new ArrayList<>();
    cells.add(Integer.toString(agreement.n()));
    cells.addAll(withInterval(agreement.bias(), agreement.biasInterval()));
    cells.add(number(agreement.sd()));
    cells.addAll(withInterval(agreement.lowerLimit(), agreement.lowerLimitInterval()));
    cells.addAll(withInterval(agreement.upperLimit(), agreement.upperLimitInterval()));
    return cells;
  }

  private static List<String> cells(IntraclassCorrelation correlation) {
    return withInterval(correlation.value(), correlation.interval());
  }

  private static List<String> withInterval(double value, ConfidenceInterval interval) {
    return List.of(number(value), number(interval.lower()), number(interval.upper()));
  }

  private static String reasons(SectorRepeatability one) {
    return Stream.of(
            reason("within-subject SD", one.within()),
            reason("limits of agreement", one.agreement()),
            reason("ICC", one.correlation()))
        .filter(text -> !text.isEmpty())
        .collect(Collectors.joining("; "));
  }

  private static String reason(String what, Estimate<?> estimate) {
    return estimate.reason().isEmpty() ? "" : what + " " + estimate.reason();
  }

  private static String number(double value) {
    return TableNumber.fixed(value, DECIMALS);
  }

  private static List<String> blanks(int count) {
    return Collections.nCopies(count, "");
  }
}
