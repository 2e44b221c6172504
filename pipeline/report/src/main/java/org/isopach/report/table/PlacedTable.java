package org.isopach.report.table;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import org.isopach.analysis.geometry.FundusPoint;
import org.isopach.analysis.geometry.ScanPath;
import org.isopach.report.file.CompleteFile;

/**
 * Where every A-scan of a follow-up lies on its baseline, as CSV.
 *
 * <p>Columns: {@code frame} and {@code ascan}, 0-based; {@code x_mm} (right) and {@code y_mm}
 * (down) from the baseline's landmark, three decimals; {@code depth_shift_um}, how far the A-scan
 * must be moved deeper for Bruch's membrane to lie where the baseline has it, empty where either
 * has none.
 */
public final class PlacedTable {
  private static final String HEADER = "frame,ascan,x_mm,y_mm,depth_shift_um\n";

  private PlacedTable() {}

  /** How far an A-scan must be moved deeper. */
  @FunctionalInterface
  public interface DepthShift {
    /** Returns µm, NaN where nothing is known. */
    double um(int frame, int ascan);
  }

  /**
   * Writes the table and returns the SHA-256 digest of the file.
   *
   * @param path where the follow-up's A-scans lie
   * @param landmark the baseline's, in the coordinates of the path
   */
  public static String write(Path target, ScanPath path, FundusPoint landmark, DepthShift depths)
      throws IOException {
    return CompleteFile.write(target, out -> write(out, path, landmark, depths));
  }

  private static void write(
      OutputStream out, ScanPath path, FundusPoint landmark, DepthShift depths) throws IOException {
    DecimalBytes line = new DecimalBytes(out);
    line.text(DecimalBytes.ascii(HEADER));
    for (int frame = 0; frame < path.frames(); frame++) {
      for (int ascan = 0; ascan < path.ascans(); ascan++) {
        FundusPoint at = path.point(frame, ascan).minus(landmark);
        line.count(frame);
        line.symbol(',');
        line.count(ascan);
        line.symbol(',');
        line.number((float) at.xMm(), 3);
        line.symbol(',');
        line.number((float) at.yMm(), 3);
        line.symbol(',');
        double shift = depths.um(frame, ascan);
        if (!Double.isNaN(shift)) {
          line.number((float) shift, 2);
        }
        line.symbol('\n');
      }
    }
    line.flush();
  }
}
