package org.isopach.report.series;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.OptionalDouble;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.isopach.analysis.series.AgeSlope;

/** The expected slopes of healthy eyes, from the table that comes with the program. */
public final class AgeSlopes {
  private static final String TABLE = "age-slopes.csv";
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();

  private AgeSlopes() {}

  /** Returns the rows in their order; the first that fits a sector of a layer counts. */
  public static List<AgeSlope> published() {
    try (InputStream in = AgeSlopes.class.getResourceAsStream(TABLE);
        Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8)) {
      return FORMAT.parse(reader).stream().map(AgeSlopes::slope).toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static AgeSlope slope(CSVRecord row) {
    String slope = row.get("um_per_year");
    return new AgeSlope(
        row.get("layer"),
        row.get("sector"),
        slope.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(Double.parseDouble(slope)),
        row.get("population"),
        row.get("source"),
        row.get("refusal"));
  }
}
