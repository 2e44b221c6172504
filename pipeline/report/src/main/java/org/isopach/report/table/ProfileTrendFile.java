package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.nerve.DiscAngle;
import org.isopach.analysis.nerve.ProfileTrend;

/**
 * The slope of the nerve fibre profile angle by angle over all visits, as CSV.
 *
 * <p>Columns: {@code angle_deg} of the first visit's profile, the later ones turned onto it; {@code
 * slope_um_per_year}, {@code slope_low}, {@code slope_high} with 95 % confidence at each angle by
 * itself; {@code p_adjusted} over the profile; {@code verdict}. Empty where fewer than 3 visits
 * have a value. Nothing is subtracted for age: no loss of healthy eyes was read for single angles.
 */
public final class ProfileTrendFile {
  private static final List<String> COLUMNS =
      List.of("angle_deg", "slope_um_per_year", "slope_low", "slope_high", "p_adjusted", "verdict");

  private ProfileTrendFile() {}

  /** Writes the table and returns the file's SHA-256 digest. */
  public static String write(Path target, ProfileTrend trend) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < trend.samples(); i++) {
      rows.add(
          List.of(
              TableNumber.fixed(i * DiscAngle.FULL_TURN / trend.samples(), 5),
              number(trend.slopeUmPerYear(i), 2),
              number(trend.lowUmPerYear(i), 2),
              number(trend.highUmPerYear(i), 2),
              number(trend.pAdjusted(i), 6),
              trend.verdict(i).code()));
    }
    return CsvRows.write(target, COLUMNS, rows);
  }

  private static String number(double value, int decimals) {
    return Double.isNaN(value) ? "" : TableNumber.fixed(value, decimals);
  }
}
