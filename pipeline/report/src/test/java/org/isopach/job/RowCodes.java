package org.isopach.job;

import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVRecord;

/** The codes that values of tables must have as FHIR, written down anew. */
final class RowCodes {
  /** LOINC's macular grid, from the value sets of HL7's eye care guide 0.1.0. */
  private static final Map<String, String> GRID =
      Map.ofEntries(
          Map.entry("centre-point", "57108-3"),
          Map.entry("centre", "57109-1"),
          Map.entry("inner-superior", "57110-9"),
          Map.entry("inner-nasal", "57111-7"),
          Map.entry("inner-inferior", "57112-5"),
          Map.entry("inner-temporal", "57113-3"),
          Map.entry("outer-superior", "57114-1"),
          Map.entry("outer-nasal", "57115-8"),
          Map.entry("outer-inferior", "57116-6"),
          Map.entry("outer-temporal", "57117-4"),
          Map.entry("total-volume", "57118-2"));

  /** The nerve fibre layer of a right eye, from the same guide. */
  private static final Map<String, String> FIBRES =
      Map.of(
          "/global", "86301-9",
          "quadrants/superior", "86276-3",
          "quadrants/nasal", "86284-7",
          "quadrants/inferior", "86283-9",
          "quadrants/temporal", "86273-0");

  private RowCodes() {}

  /** Returns the code a row's value must have: LOINC's, or that of the table's own names. */
  static String ofSector(CSVRecord row, String sector) {
    boolean defined = row.get("layer").equals("ILM-RPE") && row.get("grid").equals("etdrs-1-3-6");
    String own = String.join("/", row.get("layer"), row.get("grid"), sector);
    return defined ? GRID.getOrDefault(sector, own) : own;
  }

  /** Returns the code that a row of {@code nerve.csv} must have. */
  static String ofNerve(CSVRecord row) {
    String own =
        Stream.of("role", "measure", "layer", "scheme", "sector")
            .map(row::get)
            .collect(Collectors.joining("/"));
    return FIBRES.getOrDefault(row.get("scheme") + "/" + row.get("sector"), own);
  }
}
