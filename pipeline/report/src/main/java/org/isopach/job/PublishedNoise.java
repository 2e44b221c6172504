package org.isopach.job;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.isopach.analysis.change.NoiseSource;
import org.isopach.analysis.change.PointNoise;
import org.isopach.analysis.change.RepeatNoise;
import org.isopach.analysis.change.SectorNoise;
import org.isopach.analysis.change.SegmentationDoubt;
import org.isopach.analysis.grid.EtdrsGrids;
import org.isopach.analysis.grid.Sector;
import org.isopach.analysis.grid.SectorGrid;
import org.isopach.analysis.layer.Layer;

/**
 * Published noise of repeated scans, from the table {@code published-noise.csv}, which names the
 * source of every row. Figures of the 1/3/6 mm grid; no other grid has any.
 */
final class PublishedNoise {
  private static final String TABLE = "published-noise.csv";
  private static final String ANY = "any";

  /** Published scans were good enough to be published: both boundaries of confidence 0.90. Ours. */
  private static final double DOUBT = 2 * SegmentationDoubt.ofConfidence(0.90);

  private static final List<CSVRecord> ROWS = rows();

  private PublishedNoise() {}

  /** Returns the names of the populations of which sector figures are published, in order. */
  static Set<String> populations() {
    Set<String> names = new TreeSet<>();
    ROWS.forEach(row -> names.add(row.get("population")));
    names.remove(ANY);
    return names;
  }

  /** Returns what is published of a layer. */
  static RepeatNoise of(Layer layer, SectorGrid grid, String population) {
    String gap = "nothing published at hand for this place and layer (" + population + " eyes)";
    if (!grid.equals(EtdrsGrids.ETDRS_1_3_6)) {
      return RepeatNoise.unknown(layer, gap + " on the grid " + grid.name());
    }
    Map<String, SectorNoise> sectors = new LinkedHashMap<>();
    Optional<PointNoise> points = Optional.empty();
    for (CSVRecord row : ROWS) {
      String whose = row.get("population");
      if (!row.get("layer").equals(layer.name())
          || !(whose.equals(population) || whose.equals(ANY))) {
        continue;
      }
      if (row.get("kind").equals("sector")) {
        sectors.put(row.get("place"), sector(row));
      } else {
        points = Optional.of(points(row, grid));
      }
    }
    return new RepeatNoise(layer, sectors, points, gap);
  }

  private static SectorNoise sector(CSVRecord row) {
    return new SectorNoise(
        number(row, "sw_um"),
        number(row, "eyes"),
        0,
        DOUBT,
        NoiseSource.PUBLISHED,
        row.get("source"));
  }

  private static PointNoise points(CSVRecord row, SectorGrid grid) {
    Map<String, PointNoise.Spot> spots = new LinkedHashMap<>();
    for (Sector sector : grid.sectors()) {
      spots.put(sector.name(), new PointNoise.Spot(number(row, "sw_um"), 0, DOUBT));
    }
    double smoothing = number(row, "smoothing_mm");
    return new PointNoise(
        spots,
        smoothing,
        number(row, "tail_df"),
        2 * smoothing,
        NoiseSource.PUBLISHED,
        row.get("source"));
  }

  private static double number(CSVRecord row, String column) {
    return Double.parseDouble(row.get(column));
  }

  private static List<CSVRecord> rows() {
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (InputStream in = PublishedNoise.class.getResourceAsStream(TABLE);
        Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8)) {
      return format.parse(reader).getRecords();
    } catch (IOException e) {
      throw new UncheckedIOException(TABLE + " is part of the program", e);
    }
  }
}
