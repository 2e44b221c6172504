package org.isopach.report.normal;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.normal.ReferencePlace;

/**
 * Published test–retest noise of the nerve fibre layer round the disc, from the table {@code
 * nerve-noise.csv}, which names the source of every row. Of the circle's mean and, for any arc of a
 * quadrant or less, of the noisiest sector of a study.
 */
public final class PublishedNerveNoise {
  private static final String TABLE = "nerve-noise.csv";
  private static final String HOUR = "hour-";
  private static final String ARC = "arc";
  private static final List<CSVRecord> ROWS = rows();

  private PublishedNerveNoise() {}

  /** Returns the names of the populations, in order. */
  public static Set<String> populations() {
    Set<String> names = new TreeSet<>();
    ROWS.forEach(row -> names.add(row.get("population")));
    return names;
  }

  /**
   * Returns what is published of a place; where the source does not say of how many eyes, on
   * infinite degrees of freedom. Empty where nothing was found; so for clock hours, which are
   * smaller than the arcs of the source and noisier.
   *
   * @param sector {@code global} or the name of an arc
   * @param population one of {@link #populations}
   */
  public static Optional<SectorNoise> of(String sector, String population) {
    if (sector.startsWith(HOUR)) {
      return Optional.empty();
    }
    String place = sector.equals(ReferencePlace.GLOBAL) ? sector : ARC;
    return ROWS.stream()
        .filter(row -> row.get("population").equals(population) && row.get("place").equals(place))
        .findFirst()
        .map(PublishedNerveNoise::noise);
  }

  private static SectorNoise noise(CSVRecord row) {
    String people = row.get("people");
    return new SectorNoise(
        Double.parseDouble(row.get("sw_um")),
        people.isEmpty() ? Double.POSITIVE_INFINITY : Double.parseDouble(people),
        0,
        0,
        NoiseSource.PUBLISHED,
        row.get("source"));
  }

  private static List<CSVRecord> rows() {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (InputStream in = PublishedNerveNoise.class.getResourceAsStream(TABLE);
        Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8)) {
      return format.parse(reader).getRecords();
    } catch (IOException e) {
      throw new UncheckedIOException(TABLE + " is part of the program", e);
    }
  }
}
