package org.isopach.report.picture;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Path2D;
import java.util.List;
import org.isopach.analysis.geometry.FundusPoint;

/**
 * A line through places on the map: solid for what was found or measured along, dashed for what was
 * filled in between.
 *
 * @param points mm from the map's centre, at least two
 * @param solid solid or dashed
 * @param heavy heavy or thin
 */
record MapCurve(List<FundusPoint> points, boolean solid, boolean heavy) implements SheetLine {
  private static final Color RIM = new Color(0xFB, 0xFA, 0xF4, 0xD8);
  private static final float HEAVY = 3.2f;
  private static final float THIN = 1.8f;

  MapCurve {
    points = List.copyOf(points);
    if (points.size() < 2) {
      throw new IllegalArgumentException("a curve needs two places, had " + points.size());
    }
  }

  @Override
  public void paint(Graphics2D g, MapWindow window) {
    Path2D path = new Path2D.Double();
    path.moveTo(window.xPx(points.get(0).xMm()), window.yPx(points.get(0).yMm()));
    for (FundusPoint point : points.subList(1, points.size())) {
      path.lineTo(window.xPx(point.xMm()), window.yPx(point.yMm()));
    }
    float width = heavy ? HEAVY : THIN;
    g.setColor(RIM);
    g.setStroke(new BasicStroke(width + 3, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
    g.draw(path);
    g.setColor(Ink.DARK);
    float[] dashes = solid ? null : new float[] {6, 5};
    g.setStroke(
        new BasicStroke(width, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 10, dashes, 0));
    g.draw(path);
  }
}
