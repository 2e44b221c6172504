package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.isopach.analysis.change.ChangeMask;
import org.isopach.analysis.change.ChangeRegion;
import org.isopach.analysis.change.ChangeRegions.Sought;
import org.isopach.analysis.map.MapLattice;

/**
 * The line round a region whose change is beyond noise, along the edges of cells: solid where the
 * layer grew thicker, dashed where it grew thinner, so that it does not hang on colour.
 *
 * @param loops closed lines, corners counted from the upper left corner of the lattice's first cell
 * @param lattice what they are counted in
 * @param solid solid or dashed
 */
record MapOutline(List<RegionOutline.Loop> loops, MapLattice lattice, boolean solid)
    implements SheetLine {
  private static final float WIDTH = 3.2f;
  private static final Color RIM = new Color(0xFB, 0xFA, 0xF4, 0xD8);

  MapOutline {
    loops = List.copyOf(loops);
    Objects.requireNonNull(lattice, "lattice");
  }

  /** Returns the outlines of all regions of a mask, in the order of their numbers. */
  static List<SheetLine> of(ChangeMask mask, Sought sought) {
    MapLattice lattice = mask.lattice();
    List<SheetLine> outlines = new ArrayList<>();
    for (ChangeRegion region : sought.regions()) {
      byte[] labels = new byte[lattice.cells()];
      for (int i = 0; i < labels.length; i++) {
        int number = mask.region(i / lattice.columns(), i % lattice.columns());
        labels[i] = (byte) (number == region.number() ? 1 : 0);
      }
      List<RegionOutline.Loop> loops = RegionOutline.of(labels, lattice.columns(), (byte) 1);
      outlines.add(new MapOutline(loops, lattice, region.thicker()));
    }
    return outlines;
  }

  @Override
  public void paint(Graphics2D g, MapWindow window) {
    Path2D path = new Path2D.Double(Path2D.WIND_EVEN_ODD);
    for (RegionOutline.Loop loop : loops) {
      for (int i = 0; i < loop.xs().size(); i++) {
        double x = window.xPx(lattice.firstXMm() + (loop.xs().get(i) - 0.5) * lattice.stepMm());
        double y = window.yPx(lattice.firstYMm() + (loop.ys().get(i) - 0.5) * lattice.stepMm());
        if (i == 0) {
          path.moveTo(x, y);
        } else {
          path.lineTo(x, y);
        }
      }
      path.closePath();
    }
    g.setColor(RIM);
    g.setStroke(new BasicStroke(WIDTH + 3, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    g.draw(path);
    g.setColor(Ink.DARK);
    g.setStroke(stroke(solid));
    g.draw(path);
  }

  /** Returns the stroke of a line round a region. */
  static BasicStroke stroke(boolean solid) {
    return solid
        ? new BasicStroke(WIDTH, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND)
        : new BasicStroke(
            WIDTH, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, new float[] {9, 6}, 0);
  }
}
