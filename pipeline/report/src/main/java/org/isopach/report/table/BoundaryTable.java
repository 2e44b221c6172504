package org.isopach.report.table;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Path;
import org.isopach.analysis.layer.Absence;
import org.isopach.analysis.layer.Boundary;
import org.isopach.analysis.layer.BoundarySet;
import org.isopach.analysis.layer.BoundarySurface;
import org.isopach.report.file.CompleteFile;

/**
 * The boundaries of one scan as CSV.
 *
 * <p>Columns: {@code frame} and {@code ascan}, 0-based; {@code boundary}; {@code depth_px}, 0 at
 * the centre of the first pixel, three decimals, empty where the boundary is not measurable; {@code
 * confidence} from 0 to 1, two decimals; {@code absence}, why there is no depth, else empty. Rows
 * run by frame, A-scan, boundary from the vitreous outwards. Lines end in a line feed.
 */
public final class BoundaryTable {
  private static final String HEADER = "frame,ascan,boundary,depth_px,confidence,absence\n";

  private BoundaryTable() {}

  /**
   * Writes the table.
   *
   * @return the SHA-256 digest of the file
   */
  public static String write(Path target, BoundarySet boundaries) throws IOException {
    return CompleteFile.write(target, out -> write(out, boundaries));
  }

  private static void write(OutputStream out, BoundarySet boundaries) throws IOException {
    Boundary[] names = boundaries.boundaries().toArray(Boundary[]::new);
    BoundarySurface[] surfaces = new BoundarySurface[names.length];
    byte[][] labels = new byte[names.length][];
    for (int b = 0; b < names.length; b++) {
      surfaces[b] = boundaries.surface(names[b]).orElseThrow();
      labels[b] = DecimalBytes.ascii("," + names[b].code() + ",");
    }
    byte[][] reasons = new byte[Absence.values().length][];
    for (Absence absence : Absence.values()) {
      reasons[absence.mark()] = DecimalBytes.ascii(absence.code());
    }
    DecimalBytes line = new DecimalBytes(out);
    line.text(DecimalBytes.ascii(HEADER));
    for (int frame = 0; frame < boundaries.frames(); frame++) {
      for (int ascan = 0; ascan < boundaries.ascans(); ascan++) {
        for (int b = 0; b < names.length; b++) {
          line.count(frame);
          line.symbol(',');
          line.count(ascan);
          line.text(labels[b]);
          depth(line, surfaces[b].depthPx(frame, ascan));
          line.symbol(',');
          line.number(surfaces[b].confidence(frame, ascan), 2);
          line.symbol(',');
          line.text(reasons[surfaces[b].absence(frame, ascan).mark()]);
          line.symbol('\n');
        }
      }
    }
    line.flush();
  }

  private static void depth(DecimalBytes line, float depthPx) throws IOException {
    if (!Float.isNaN(depthPx)) {
      line.number(depthPx, 3);
    }
  }
}
