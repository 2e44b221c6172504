package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.isopach.analysis.nerve.CircleProfile;

/**
 * The nerve fibre profile of one scan as CSV.
 *
 * <p>Columns: {@code angle_deg}, from 0 at temporal over superior, nasal and inferior, counted from
 * what {@code nerve.csv} names; {@code thickness_um}, one decimal, empty where there is none;
 * {@code confidence} of the less certain of the two boundaries, from 0 to 1, two decimals, empty
 * where neither was looked for.
 */
public final class ProfileFile {
  private static final List<String> COLUMNS = List.of("angle_deg", "thickness_um", "confidence");

  private ProfileFile() {}

  /** Gives the confidence of the sample at an angle of the profile; NaN where there is none. */
  @FunctionalInterface
  public interface Confidence {
    double at(double degrees);
  }

  /** Writes the table and returns the file's SHA-256 digest. */
  public static String write(Path target, CircleProfile profile, Confidence confidence)
      throws IOException {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < profile.samples(); i++) {
      double angle = profile.angleDegrees(i);
      rows.add(
          List.of(
              TableNumber.fixed(angle, 5),
              number(profile.thicknessUm(i), 1),
              number(confidence.at(angle), 2)));
    }
    return CsvRows.write(target, COLUMNS, rows);
  }

  private static String number(double value, int decimals) {
    return Double.isNaN(value) ? "" : TableNumber.fixed(value, decimals);
  }
}
