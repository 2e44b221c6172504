package org.isopach.report.table;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.isopach.analysis.nerve.DiscAngle;
import org.isopach.analysis.nerve.ProfileChange;

/**
 * The change of the nerve fibre profile angle by angle since the baseline, as CSV.
 *
 * <p>Columns: {@code angle_deg} of the baseline's profile, the follow-up turned onto it; {@code
 * baseline_um}, {@code follow_up_um}, {@code change_um}, empty where there is none; {@code
 * p_adjusted} over the profile and {@code verdict}, empty where the noise of single angles is not
 * known; {@code turned_deg}, the same in every row.
 */
public final class ProfileChangeFile {
  private static final List<String> COLUMNS =
      List.of(
          "angle_deg",
          "baseline_um",
          "follow_up_um",
          "change_um",
          "p_adjusted",
          "verdict",
          "turned_deg");

  private ProfileChangeFile() {}

  /**
   * Writes the table and returns the file's SHA-256 digest.
   *
   * @param earlierUm the baseline's profile, NaN for none
   * @param laterUm the follow-up's, turned onto it
   * @param turnedDegrees by how much it was turned
   * @param change what the changes say; empty where the noise is not known
   */
  public static String write(
      Path target,
      double[] earlierUm,
      double[] laterUm,
      double turnedDegrees,
      Optional<ProfileChange> change)
      throws IOException {
    List<List<String>> rows = new ArrayList<>();
    for (int i = 0; i < earlierUm.length; i++) {
      int sample = i;
      rows.add(
          List.of(
              TableNumber.fixed(i * DiscAngle.FULL_TURN / earlierUm.length, 5),
              number(earlierUm[i], 1),
              number(laterUm[i], 1),
              number(laterUm[i] - earlierUm[i], 1),
              change.map(one -> number(one.pAdjusted(sample), 6)).orElse(""),
              change.map(one -> one.verdict(sample).code()).orElse(""),
              TableNumber.fixed(turnedDegrees, 2)));
    }
    return CsvRows.write(target, COLUMNS, rows);
  }

  private static String number(double value, int decimals) {
    return Double.isNaN(value) ? "" : TableNumber.fixed(value, decimals);
  }
}
