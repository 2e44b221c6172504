package org.isopach.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.isopach.analysis.finding.FindingKind;
import org.isopach.analysis.normal.NormalPlace;
import org.isopach.report.table.FlagWords;
import org.isopach.report.table.NerveTable;
import org.isopach.report.table.NerveValue;

/** Prints, once for all scans of the nerve, how their numbers are to be taken. */
final class NerveFootPrinter {
  private final PrintWriter out;

  NerveFootPrinter(PrintWriter out) {
    this.out = out;
  }

  /** Prints only what has to do with the tables. */
  void print(List<NerveTable> tables) {
    out.println();
    percentiles(tables);
    if (tables.stream().anyMatch(NerveScanPrinter::unchecked)) {
      out.println(
          "Centring not checked: a circle off the disc's centre is thick on one side and thin on"
              + " the other, and");
      out.println(
          "  its percentiles are off with it; by how much in invented eyes: docs/measurements.md.");
      out.println("  " + sentence(FindingKind.CIRCLE_NOT_CHECKED.advice()) + ".");
    }
    if (values(tables).stream().anyMatch(value -> value.value().isEmpty())) {
      out.println("n/m: not measurable; nerve.csv says why, column reason.");
    }
    if (values(tables).stream().anyMatch(value -> !value.flags().isEmpty())) {
      out.println("look: of which numbers that holds stands in nerve.csv, column flags.");
    }
  }

  private void percentiles(List<NerveTable> tables) {
    Map<String, List<List<String>>> notes = new LinkedHashMap<>();
    for (NerveValue value : values(tables)) {
      value
          .percentile()
          .ifPresent(
              one ->
                  notes
                      .computeIfAbsent(one.row().words(), name -> new ArrayList<>())
                      .add(own(one)));
    }
    if (notes.isEmpty()) {
      return;
    }
    notes.forEach(
        (group, each) -> {
          out.println("Percentiles are those of the group " + PlainText.of(group) + ".");
          everywhere(each).forEach(note -> out.println("  " + PlainText.of(note)));
        });
    if (notes.size() > 1) {
      out.println("  Which of these groups a percentile is of: nerve.csv, column reference.");
    }
    out.println(
        "  What else they leave out stands with each of them in nerve.csv, column place. A place in"
            + " a group is no finding: one");
    out.println(
        "  healthy eye in twenty lies below the 5th percentile of each value, and of many values some"
            + " will.");
  }

  /** What a single circle's place leaves open is said of that circle. */
  private static List<String> own(NormalPlace.Placed placed) {
    return placed.notes().stream()
        .filter(note -> !note.startsWith(FlagWords.CENTRING_NOT_CHECKED))
        .toList();
  }

  private static List<String> everywhere(List<List<String>> each) {
    return each.get(0).stream()
        .filter(note -> each.stream().allMatch(notes -> notes.contains(note)))
        .toList();
  }

  private static List<NerveValue> values(List<NerveTable> tables) {
    return tables.stream().flatMap(table -> table.values().stream()).toList();
  }

  private static String sentence(String words) {
    return Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }
}
