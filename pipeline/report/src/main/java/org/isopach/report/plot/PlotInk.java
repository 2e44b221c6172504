package org.isopach.report.plot;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.List;

/**
 * How the series of a plot are told apart: by colour (Okabe and Ito's palette, 2008, from memory,
 * the ones dark enough on white), by mark and by dashes, so that no one has to tell colours apart.
 *
 * @param colour of marks and lines
 * @param mark about 8 px wide around (0, 0)
 * @param stroke of lines; only the first ink's is unbroken
 */
public record PlotInk(Color colour, Shape mark, BasicStroke stroke) {
  public static final PlotInk BLUE =
      ink(new Color(0, 114, 178), new Ellipse2D.Double(-3.5, -3.5, 7, 7));
  public static final PlotInk VERMILION =
      ink(new Color(213, 94, 0), polygon(0, -4.5, 4.5, 0, 0, 4.5, -4.5, 0), 7, 3);
  public static final PlotInk GREEN =
      ink(new Color(0, 158, 115), new Rectangle2D.Double(-3.2, -3.2, 6.4, 6.4), 2, 3);
  public static final PlotInk PURPLE =
      ink(new Color(204, 121, 167), polygon(0, -4.5, 4.2, 3.2, -4.2, 3.2), 9, 3, 2, 3);
  public static final PlotInk GREY =
      ink(new Color(110, 110, 110), polygon(-4, -3.2, 4, -3.2, 0, 4.2), 4, 4);

  /** All inks in the order in which series should take them. */
  public static final List<PlotInk> ALL = List.of(BLUE, VERMILION, GREEN, PURPLE, GREY);

  private static final float LINE_WIDTH = 1.4f;

  private static PlotInk ink(Color colour, Shape mark, float... dashes) {
    BasicStroke stroke =
        new BasicStroke(
            LINE_WIDTH,
            BasicStroke.CAP_BUTT,
            BasicStroke.JOIN_ROUND,
            10,
            dashes.length == 0 ? null : dashes,
            0);
    return new PlotInk(colour, mark, stroke);
  }

  /** Returns a closed shape; coordinates are x, y in turn. */
  private static Shape polygon(double... corners) {
    Path2D path = new Path2D.Double();
    path.moveTo(corners[0], corners[1]);
    for (int i = 2; i < corners.length; i += 2) {
      path.lineTo(corners[i], corners[i + 1]);
    }
    path.closePath();
    return path;
  }
}
