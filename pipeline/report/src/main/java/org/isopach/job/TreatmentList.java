package org.isopach.job;

import java.io.IOException;
import java.io.Reader;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.csv.DuplicateHeaderMode;

/**
 * A treatments file as it was written: UTF-8, commas, a header with the columns {@code patient_id},
 * {@code eye}, {@code date}, {@code what} in any order. Rows are not judged here.
 *
 * @param file where it is
 * @param rows its rows, in their order
 */
public record TreatmentList(Path file, List<Row> rows) {
  /** The columns a file must have; others are ignored. */
  public static final List<String> COLUMNS = List.of("patient_id", "eye", "date", "what");

  private static final char BYTE_ORDER_MARK = '\uFEFF';
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180
          .builder()
          .setHeader()
          .setSkipHeaderRecord(true)
          .setIgnoreHeaderCase(true)
          .setDuplicateHeaderMode(DuplicateHeaderMode.DISALLOW)
          .setIgnoreEmptyLines(true)
          .setTrim(true)
          .get();

  public TreatmentList {
    Objects.requireNonNull(file, "file");
    rows = List.copyOf(rows);
  }

  /**
   * One row.
   *
   * @param line number of its line in the file, from 1; with line breaks inside quotes, the last
   * @param cells text of the columns {@link #COLUMNS}; empty when the row has too few or too many
   */
  public record Row(long line, List<String> cells) {
    public Row {
      cells = List.copyOf(cells);
    }

    String patientId() {
      return cells.get(0);
    }

    String eye() {
      return cells.get(1);
    }

    String date() {
      return cells.get(2);
    }

    String what() {
      return cells.get(3);
    }
  }

  /**
   * Reads a file.
   *
   * @throws IOException when it cannot be read, is not such a table, or lacks a column; the message
   *     says what is wrong
   */
  public static TreatmentList read(Path file) throws IOException {
    try (Reader reader = new StringReader(text(file));
        CSVParser parser = FORMAT.parse(reader)) {
      for (String column : COLUMNS) {
        if (!parser.getHeaderMap().containsKey(column)) {
          throw new IOException(
              "the first line must name the columns "
                  + String.join(", ", COLUMNS)
                  + ", parted by commas; '"
                  + column
                  + "' is missing");
        }
      }
      List<Row> rows = new ArrayList<>();
      for (CSVRecord row : parser) {
        rows.add(new Row(parser.getCurrentLineNumber(), cells(row)));
      }
      return new TreatmentList(file, rows);
    } catch (IllegalArgumentException | IllegalStateException | UncheckedIOException e) {
      throw new IOException("not a table of comma-separated values: " + e.getMessage(), e);
    }
  }

  private static List<String> cells(CSVRecord row) {
    return row.isConsistent() ? COLUMNS.stream().map(row::get).toList() : List.of();
  }

  private static String text(Path file) throws IOException {
    try {
      String text =
          StandardCharsets.UTF_8
              .newDecoder()
              .onMalformedInput(CodingErrorAction.REPORT)
              .decode(ByteBuffer.wrap(Files.readAllBytes(file)))
              .toString();
      boolean marked = !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK;
      return marked ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw new IOException("the text is not UTF-8", e);
    }
  }

  /** Returns the subject of a finding about a row. */
  String subject(Row row) {
    return String.format(Locale.ROOT, "%s, line %d", file, row.line());
  }
}
