package org.isopach.report.table;

import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.isopach.report.file.CompleteFile;

/**
 * Writes small tables: UTF-8, commas, quotes where needed (RFC 4180), lines end in a line feed.
 *
 * <p>Text from an object that a spreadsheet would run as a formula gets an apostrophe in front.
 */
final class CsvRows {
  private static final Pattern NUMBER = Pattern.compile("[-+]?[0-9][0-9.]*([eE][-+]?[0-9]+)?");
  private static final String STARTS_FORMULA = "=+-@\t\r";
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180.builder().setRecordSeparator("\n").get();

  private CsvRows() {}

  /** Writes a header and rows and returns the file's SHA-256 digest. */
  static String write(Path target, List<String> header, List<List<String>> rows)
      throws IOException {
    return CompleteFile.write(target, out -> write(out, header, rows));
  }

  private static String harmless(String cell) {
    boolean formula =
        !cell.isEmpty()
            && STARTS_FORMULA.indexOf(cell.charAt(0)) >= 0
            && !NUMBER.matcher(cell).matches();
    return formula ? "'" + cell : cell;
  }

  private static void write(OutputStream out, List<String> header, List<List<String>> rows)
      throws IOException {
    Writer writer = new OutputStreamWriter(out, StandardCharsets.UTF_8);
    CSVPrinter printer = new CSVPrinter(writer, FORMAT);
    printer.printRecord(header);
    for (List<String> row : rows) {
      if (row.size() != header.size()) {
        throw new IllegalArgumentException(
            "a row of " + row.size() + " cells does not fit " + header.size() + " columns");
      }
      printer.printRecord(row.stream().map(CsvRows::harmless).toList());
    }
    printer.flush();
  }
}
