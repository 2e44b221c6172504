package org.isopach.report.normal;

import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.csv.DuplicateHeaderMode;
import org.isopach.analysis.normal.ReferenceAgeing;
import org.isopach.analysis.normal.ReferenceRow;
import org.isopach.analysis.normal.ReferenceTable;
import org.isopach.report.normal.ReferenceTableException.Fault;

/**
 * Reads a table of reference groups: CSV (RFC 4180), UTF-8, a header that names every column of
 * {@link #COLUMNS} and no other, in any order. What each column holds: docs/measurements.md,
 * "Normal limits". A table is taken as a whole or not at all.
 */
public final class ReferenceTableFile {
  /** The columns of a table. */
  public static final List<String> COLUMNS =
      List.of(
          "reference_id",
          "kind",
          "measure",
          "boundaries",
          "scheme",
          "sector",
          "diameter_mm",
          "angle_zero",
          "mean_um",
          "sd_um",
          "n",
          "age_from_years",
          "age_to_years",
          "age_slope_um_per_year",
          "mean_age_years",
          "axial_from_mm",
          "axial_to_mm",
          "axial_slope_um_per_mm",
          "mean_axial_mm",
          "disc_slope_um_per_mm2",
          "mean_disc_mm2",
          "device_class",
          "device_models",
          "population",
          "source",
          "status",
          "note");

  private static final String SHIPPED = "reference-nerve.csv";
  private static final char BYTE_ORDER_MARK = '\uFEFF';
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180
          .builder()
          .setHeader()
          .setSkipHeaderRecord(true)
          .setDuplicateHeaderMode(DuplicateHeaderMode.DISALLOW)
          .setIgnoreEmptyLines(true)
          .setTrim(true)
          .get();

  private ReferenceTableFile() {}

  /**
   * Returns the table that comes with the program: published figures only, each with its source.
   */
  public static ReferenceTable shipped() {
    try (InputStream in = ReferenceTableFile.class.getResourceAsStream(SHIPPED)) {
      return parse(SHIPPED, in.readAllBytes());
    } catch (IOException e) {
      throw new UncheckedIOException(SHIPPED + " is part of the program", e);
    }
  }

  /**
   * Reads a file.
   *
   * @throws ReferenceTableException when it is no sound table; it names every fault with its line
   *     and column
   * @throws IOException when it cannot be read
   */
  public static ReferenceTable read(Path file) throws IOException {
    return parse(file.getFileName().toString(), Files.readAllBytes(file));
  }

  private static ReferenceTable parse(String name, byte[] bytes) throws IOException {
    List<Fault> faults = new ArrayList<>();
    List<ReferenceRow> rows = new ArrayList<>();
    List<ReferenceAgeing> ageing = new ArrayList<>();
    try (CSVParser parser = FORMAT.parse(new StringReader(text(name, bytes)))) {
      checkHeader(parser.getHeaderNames(), faults);
      if (faults.isEmpty()) {
        readRows(parser, rows, ageing, faults);
      }
    } catch (IllegalArgumentException | UncheckedIOException e) {
      // The parser's own words on doubled columns and broken quotes; both name what they found.
      faults.add(new Fault(1, "", "not CSV as RFC 4180 has it: " + e.getMessage()));
    }
    if (faults.isEmpty() && rows.isEmpty() && ageing.isEmpty()) {
      faults.add(new Fault(1, "", "the table has no rows"));
    }
    if (!faults.isEmpty()) {
      throw new ReferenceTableException(name, faults);
    }
    return new ReferenceTable(name, rows, ageing);
  }

  private static void checkHeader(List<String> header, List<Fault> faults) {
    for (String column : header) {
      if (!COLUMNS.contains(column)) {
        faults.add(new Fault(1, column, "unknown column"));
      }
    }
    for (String column : COLUMNS) {
      if (!header.contains(column)) {
        faults.add(new Fault(1, column, "the column is missing"));
      }
    }
  }

  private static void readRows(
      CSVParser parser, List<ReferenceRow> rows, List<ReferenceAgeing> ageing, List<Fault> faults) {
    Map<List<Object>, Long> seen = new HashMap<>();
    for (CSVRecord row : parser) {
      long line = parser.getCurrentLineNumber();
      if (row.size() != COLUMNS.size()) {
        String what = "has " + row.size() + " cells, the header " + COLUMNS.size();
        faults.add(new Fault(line, "", what));
        continue;
      }
      ReferenceCells cells = new ReferenceCells(row, line, faults);
      ReferenceRowReader reader = new ReferenceRowReader(cells);
      String kind = cells.text("kind");
      if (kind.equals(ReferenceRowReader.LIMITS)) {
        reader.limits().ifPresent(rows::add);
      } else if (kind.equals(ReferenceRowReader.AGEING)) {
        reader.ageing().ifPresent(ageing::add);
      } else {
        cells.fault("kind", "must be limits or ageing, was '" + kind + "'");
      }
      checkTwice(cells, line, seen);
    }
  }

  /** Two rows of one group, kind and place would leave it open which counts. */
  private static void checkTwice(ReferenceCells cells, long line, Map<List<Object>, Long> seen) {
    List<Object> key = new ArrayList<>();
    for (String column : COLUMNS.subList(0, COLUMNS.indexOf("mean_um"))) {
      key.add(cells.text(column));
    }
    key.add(cells.text("age_from_years"));
    key.add(cells.text("age_to_years"));
    Long first = seen.putIfAbsent(key, line);
    if (first != null) {
      cells.fault("", "says again what line " + first + " says");
    }
  }

  private static String text(String name, byte[] bytes) throws IOException {
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw new ReferenceTableException(name, List.of(new Fault(1, "", "is not UTF-8 text")));
    }
  }
}
