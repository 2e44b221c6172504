package org.isopach.cli;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/** The rows of a table by the names of its columns; cells may hold commas. */
final class CrossRows {
  private CrossRows() {}

  static List<Map<String, String>> of(Path table) throws IOException {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (Reader reader = Files.newBufferedReader(table)) {
      return format.parse(reader).stream().map(CSVRecord::toMap).toList();
    }
  }
}
